package photo

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"io"
)

// maxProfile is the largest colour profile that is kept, in bytes.
const maxProfile = 1 << 20

// segments calls see for every marker segment of a JPEG before its first scan, until it returns false.
func segments(source []byte, see func(marker byte, data []byte) bool) {
	for at := 2; at+4 <= len(source); {
		if source[at] != 0xff {
			return
		}
		marker := source[at+1]
		if marker == 0xff { // padding
			at++
			continue
		}
		if marker == 0x01 || marker >= 0xd0 && marker <= 0xd8 { // without a length
			at += 2
			continue
		}
		length := int(binary.BigEndian.Uint16(source[at+2:]))
		if marker == 0xda || marker == 0xd9 || length < 2 || at+2+length > len(source) {
			return
		}
		if !see(marker, source[at+4:at+2+length]) {
			return
		}
		at += 2 + length
	}
}

// progressive returns how many samples a pixel of a JPEG has that is sent in several scans refining each other, such as
// 1.5 where the colours have half the width and height, and 0 for other JPEGs (ITU-T T.81, B.2.2).
func progressive(source []byte) float64 {
	samples := 0.0
	segments(source, func(marker byte, data []byte) bool {
		if marker != 0xc2 || len(data) < 6 {
			return true
		}
		sum, most := 0, 1
		for at := 6; at+3 <= len(data); at += 3 {
			blocks := int(data[at+1]>>4) * int(data[at+1]&15)
			sum, most = sum+blocks, max(most, blocks)
		}
		samples = float64(sum) / float64(most)
		return false
	})
	return samples
}

// jpegNotes reads the APP1 segment of EXIF and the APP2 segments of the colour profile (ICC.1:2010, annex B.4).
func jpegNotes(source []byte) notes {
	n := notes{orientation: 1}
	parts, count := map[byte][]byte{}, byte(0)
	segments(source, func(marker byte, data []byte) bool {
		if rest, ok := bytes.CutPrefix(data, []byte("Exif\x00\x00")); ok && marker == 0xe1 {
			n.orientation = orientation(rest)
		}
		if rest, ok := bytes.CutPrefix(data, []byte("ICC_PROFILE\x00")); ok && marker == 0xe2 && len(rest) > 2 {
			parts[rest[0]], count = rest[2:], rest[1]
		}
		return true
	})
	var profile []byte
	for i := byte(1); i <= count && i != 0; i++ {
		profile = append(profile, parts[i]...)
	}
	n.profile = colours(profile)
	return n
}

// pngNotes reads the chunks eXIf and iCCP (PNG, third edition, 11.3.3.3 and 11.3.4.5).
func pngNotes(source []byte) notes {
	n := notes{orientation: 1}
	for at := 8; at+12 <= len(source); {
		length := int(binary.BigEndian.Uint32(source[at:]))
		if length < 0 || length > len(source)-at-12 {
			return n
		}
		data := source[at+8 : at+8+length]
		switch string(source[at+4 : at+8]) {
		case "eXIf":
			n.orientation = orientation(data)
		case "iCCP":
			if _, packed, ok := bytes.Cut(data, []byte{0, 0}); ok {
				n.profile = colours(inflate(packed))
			}
		case "IDAT":
			// eXIf may follow the picture, so go on.
		}
		at += 12 + length
	}
	return n
}

func inflate(packed []byte) []byte {
	reader, err := zlib.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil
	}
	profile, err := io.ReadAll(io.LimitReader(reader, maxProfile+1))
	if err != nil {
		return nil
	}
	return profile
}

// webpNotes reads the chunks EXIF and ICCP (RFC 9649, section 2.7).
func webpNotes(source []byte) notes {
	n := notes{orientation: 1}
	for at := 12; at+8 <= len(source); {
		length := int(binary.LittleEndian.Uint32(source[at+4:]))
		if length < 0 || length > len(source)-at-8 {
			return n
		}
		data := source[at+8 : at+8+length]
		switch string(source[at : at+4]) {
		case "EXIF":
			n.orientation = orientation(bytes.TrimPrefix(data, []byte("Exif\x00\x00")))
		case "ICCP":
			n.profile = colours(data)
		}
		at += 8 + length + length%2
	}
	return n
}

// orientation reads tag 0x0112 of the first image file directory of EXIF data (CIPA DC-008-2019, 4.6.2 and 4.6.4):
// 1 to 8, and 1 where it is missing or broken.
func orientation(exif []byte) int {
	if len(exif) < 8 {
		return 1
	}
	var order binary.ByteOrder
	switch string(exif[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return 1
	}

	start := int64(order.Uint32(exif[4:]))
	if start+2 > int64(len(exif)) {
		return 1
	}
	directory := exif[start:]
	entries := directory[2:]
	for range order.Uint16(directory) {
		if len(entries) < 12 {
			return 1
		}
		const short = 3
		if order.Uint16(entries) == 0x0112 && order.Uint16(entries[2:]) == short {
			if value := int(order.Uint16(entries[8:])); value >= 1 && value <= 8 {
				return value
			}
			return 1
		}
		entries = entries[12:]
	}
	return 1
}
