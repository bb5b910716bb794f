package photo

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"testing"
)

// secret stands in every place of a made photo that could tell something about its keeper.
const secret = "HarbourStreet7"

// quarters is a picture of four flat quarters: red, green, blue, yellow. Each channel has only the values 30 and 200.
func quarters(width, height int) *image.RGBA {
	p := image.NewRGBA(image.Rect(0, 0, width, height))
	tones := [4]color.RGBA{{200, 30, 30, 255}, {30, 200, 30, 255}, {30, 30, 200, 255}, {200, 200, 30, 255}}
	for y := range height {
		for x := range width {
			i := 0
			if x >= width/2 {
				i = 1
			}
			if y >= height/2 {
				i += 2
			}
			p.SetRGBA(x, y, tones[i])
		}
	}
	return p
}

func jpegOf(t testing.TB, p image.Image) []byte {
	t.Helper()
	var file bytes.Buffer
	if err := jpeg.Encode(&file, p, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}

func pngOf(t testing.TB, p image.Image) []byte {
	t.Helper()
	var file bytes.Buffer
	if err := png.Encode(&file, p); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}

// webpOf writes a picture whose channels have only the values 30 and 200 as lossless WebP: RFC 9649, section 3, with
// no transform and a code of one bit for each channel.
func webpOf(p *image.RGBA) []byte {
	var bits bitWriter
	width, height := p.Rect.Dx(), p.Rect.Dy()
	bits.put(0x2f, 8)
	bits.put(uint32(width-1), 14)
	bits.put(uint32(height-1), 14)
	bits.put(0, 1+3)   // no alpha, version
	bits.put(0, 1+1+1) // no transform, colour cache or further codes
	for range 3 {      // green, red, blue: two symbols of 8 bits
		bits.put(1|1<<1|1<<2, 3)
		bits.put(30, 8)
		bits.put(200, 8)
	}
	bits.put(1|0<<1|1<<2, 3) // alpha: always 255
	bits.put(255, 8)
	bits.put(1|0<<1|0<<2, 3) // distance: always 0
	bits.put(0, 1)
	for y := range height {
		for x := range width {
			c := p.RGBAAt(x, y)
			for _, v := range [3]byte{c.G, c.R, c.B} {
				bits.put(uint32(v/200), 1)
			}
		}
	}
	return riff(chunk{"VP8L", bits.bytes})
}

type bitWriter struct {
	bytes []byte
	used  int // bits of the last byte
}

func (w *bitWriter) put(value uint32, count int) {
	for i := range count {
		if w.used == 0 {
			w.bytes = append(w.bytes, 0)
		}
		w.bytes[len(w.bytes)-1] |= byte(value>>i&1) << w.used
		w.used = (w.used + 1) % 8
	}
}

type chunk struct {
	name string
	data []byte
}

func riff(chunks ...chunk) []byte {
	body := []byte("WEBP")
	for _, c := range chunks {
		body = append(body, c.name...)
		body = binary.LittleEndian.AppendUint32(body, uint32(len(c.data)))
		body = append(body, c.data...)
		if len(c.data)%2 == 1 {
			body = append(body, 0)
		}
	}
	file := binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body)))
	return append(file, body...)
}

// exif is EXIF data with an orientation, a text and a place on Earth.
func exif(order binary.AppendByteOrder, orientation int) []byte {
	data := []byte("MM\x00*")
	if order == binary.AppendByteOrder(binary.LittleEndian) {
		data = []byte("II*\x00")
	}
	data = order.AppendUint32(data, 8)
	data = order.AppendUint16(data, 3)
	entry := func(tag, kind uint16, count uint32) {
		data = order.AppendUint16(data, tag)
		data = order.AppendUint16(data, kind)
		data = order.AppendUint32(data, count)
	}
	entry(0x010e, 2, uint32(len(secret)+1)) // description
	data = order.AppendUint32(data, 50)
	entry(0x0112, 3, 1)
	data = order.AppendUint16(data, uint16(orientation))
	data = order.AppendUint16(data, 0)
	entry(0x8825, 4, 1) // place
	data = order.AppendUint32(data, uint32(50+len(secret)+1))
	data = order.AppendUint32(data, 0)
	data = append(append(data, secret...), 0)
	data = order.AppendUint16(data, 1)
	entry(1, 2, 2)
	return append(append(data, "N\x00\x00\x00"...), secret...)
}

// segment is one marker segment of a JPEG.
func segment(marker byte, data string) []byte {
	out := binary.BigEndian.AppendUint16([]byte{0xff, marker}, uint16(len(data)+2))
	return append(out, data...)
}

// jpegWith puts metadata of many kinds into a JPEG.
func jpegWith(file []byte, order binary.AppendByteOrder, orientation int, profile []byte) []byte {
	out := bytes.Clone(file[:2])
	out = append(out, segment(0xe0, "JFIF\x00\x01\x02\x00\x00\x01\x00\x01\x00\x00")...)
	out = append(out, segment(0xe1, "Exif\x00\x00"+string(exif(order, orientation)))...)
	out = append(out, segment(0xe1, "http://ns.adobe.com/xap/1.0/\x00<x>"+secret+"</x>")...)
	out = append(out, segment(0xed, "Photoshop 3.0\x00"+secret)...)
	out = append(out, segment(0xfe, secret)...)
	for i, half := range [][]byte{profile[:len(profile)/2], profile[len(profile)/2:]} {
		out = append(out, segment(0xe2, "ICC_PROFILE\x00"+string([]byte{byte(i + 1), 2})+string(half))...)
	}
	return append(out, file[2:]...)
}

// pngChunk is one chunk of a PNG.
func pngChunk(name string, data []byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	out = append(append(out, name...), data...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[4:]))
}

// pngWith puts metadata into a PNG.
func pngWith(file []byte, orientation int, profile []byte) []byte {
	var packed bytes.Buffer
	packed.WriteString(secret + "\x00\x00")
	w := zlib.NewWriter(&packed)
	w.Write(profile)
	w.Close()
	out := bytes.Clone(file[:33])
	out = append(out, pngChunk("iCCP", packed.Bytes())...)
	out = append(out, pngChunk("eXIf", exif(binary.BigEndian, orientation))...)
	out = append(out, pngChunk("tEXt", []byte("Comment\x00"+secret))...)
	return append(out, file[33:]...)
}

// webpWith puts metadata into a WebP made by webpOf.
func webpWith(file []byte, width, height, orientation int, profile []byte) []byte {
	head := []byte{0x20 | 0x08 | 0x04, 0, 0, 0}
	for _, v := range [2]int{width - 1, height - 1} {
		head = append(head, byte(v), byte(v>>8), byte(v>>16))
	}
	picture := chunk{"VP8L", file[20 : 20+binary.LittleEndian.Uint32(file[16:])]}
	return riff(chunk{"VP8X", head}, chunk{"ICCP", profile}, picture,
		chunk{"EXIF", exif(binary.LittleEndian, orientation)}, chunk{"XMP ", []byte(secret)})
}

// profileOf is a colour profile with the tags of a screen and a text that names its owner. swapped exchanges red and
// blue, so that it shows whether the profile is used.
func profileOf(swapped bool) []byte {
	xyz := func(x, y, z uint32) []byte {
		tag := []byte("XYZ \x00\x00\x00\x00")
		for _, v := range [3]uint32{x, y, z} {
			tag = binary.BigEndian.AppendUint32(tag, v)
		}
		return tag
	}
	// The colorants of sRGB, adapted to D50, in 16.16 fixed point (IEC 61966-2-1, from memory).
	red, green, blue := xyz(0x6fa2, 0x38f5, 0x0390), xyz(0x6299, 0xb785, 0x18da), xyz(0x24a0, 0x0f84, 0xb6cf)
	if swapped {
		red, blue = blue, red
	}
	gamma := []byte("curv\x00\x00\x00\x00\x00\x00\x00\x01\x02\x33\x00\x00")
	header := make([]byte, profileHeader)
	copy(header[4:], secret[:4])
	header[8] = 2
	header[9] = 0x10
	copy(header[12:], "mntrRGB XYZ ")
	copy(header[36:], "acsp")
	copy(header[48:], secret[:8])
	binary.BigEndian.PutUint32(header[68:], 0xf6d6)
	binary.BigEndian.PutUint32(header[72:], 0x10000)
	binary.BigEndian.PutUint32(header[76:], 0xd32d)
	copy(header[80:], secret[:4])
	return layTags(header, map[string][]byte{
		"rXYZ": red, "gXYZ": green, "bXYZ": blue, "rTRC": gamma, "gTRC": gamma, "bTRC": gamma,
		"wtpt": xyz(0xf6d6, 0x10000, 0xd32d), "desc": words(2, "desc", secret), "cprt": words(2, "text", secret), "mmod": []byte("mmod\x00\x00\x00\x00" + secret),
	})
}
