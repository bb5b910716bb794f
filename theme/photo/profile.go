package photo

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"slices"
)

// Layout of an ICC profile (ICC.1:2010, section 7): a header, a table of tags, the tags.
const (
	profileHeader = 128
	profileTag    = 12 // signature, offset, size
)

// colourTags are the tags that say how colours look. All others are left out, because profiles of screens name the
// machine that they were made on.
var colourTags = []string{
	"rXYZ", "gXYZ", "bXYZ", "rTRC", "gTRC", "bTRC", "wtpt", "bkpt", "chad", "cicp",
	"A2B0", "A2B1", "A2B2", "B2A0", "B2A1", "B2A2",
}

// colours returns a profile that has the colours of profile and says nothing else, or nil where profile is missing,
// broken, or not for the RGB pictures that Make writes.
func colours(profile []byte) []byte {
	if len(profile) < profileHeader+4 || len(profile) > maxProfile ||
		string(profile[36:40]) != "acsp" || string(profile[16:20]) != "RGB " {
		return nil
	}
	tags := profileTags(profile)
	if tags == nil {
		return nil
	}

	kept := slices.Clone(profile[:profileHeader])
	clear(kept[4:8])   // preferred colour module
	clear(kept[40:56]) // platform, flags, maker, model
	clear(kept[80:])   // creator, identity
	copy(kept[24:36], []byte{0x07, 0xd0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0})
	tags["desc"], tags["cprt"] = words(kept[8], "desc", "RGB"), words(kept[8], "text", "None")
	return layTags(kept, tags)
}

// profileTags returns the tags of a profile that matter, or nil where the table is broken.
func profileTags(profile []byte) map[string][]byte {
	count := binary.BigEndian.Uint32(profile[profileHeader:])
	table := profile[profileHeader+4:]
	if count > 100 || int(count)*profileTag > len(table) {
		return nil
	}
	tags := map[string][]byte{}
	for i := range int(count) {
		entry := table[i*profileTag:]
		offset, size := uint64(binary.BigEndian.Uint32(entry[4:])), uint64(binary.BigEndian.Uint32(entry[8:]))
		if offset+size > uint64(len(profile)) {
			return nil
		}
		if name := string(entry[:4]); slices.Contains(colourTags, name) {
			tags[name] = profile[offset : offset+size]
		}
	}
	if len(tags) == 0 {
		return nil
	}
	return tags
}

// words returns a tag that holds a text, in the form of the profile's major version.
func words(major byte, kind, text string) []byte {
	var tag []byte
	if major >= 4 {
		// multiLocalizedUnicodeType with one record, in UTF-16 (10.13).
		tag = append(tag, "mluc\x00\x00\x00\x00\x00\x00\x00\x01\x00\x00\x00\x0cenUS"...)
		tag = binary.BigEndian.AppendUint32(tag, uint32(2*len(text)))
		tag = binary.BigEndian.AppendUint32(tag, 28)
		for _, letter := range []byte(text) {
			tag = append(tag, 0, letter)
		}
		return tag
	}
	tag = append(tag, kind...)
	tag = append(tag, 0, 0, 0, 0)
	if kind == "text" {
		return append(append(tag, text...), 0)
	}
	// textDescriptionType of ICC.1:2001-04, 6.5.17: the text, and empty Unicode and Macintosh forms.
	tag = binary.BigEndian.AppendUint32(tag, uint32(len(text)+1))
	tag = append(append(tag, text...), 0)
	return append(tag, make([]byte, 4+4+2+1+67)...)
}

// layTags puts a profile together from its header and tags. Tags that share their bytes share them again.
func layTags(header []byte, tags map[string][]byte) []byte {
	names := make([]string, 0, len(tags))
	for name := range tags {
		names = append(names, name)
	}
	slices.Sort(names)

	profile := binary.BigEndian.AppendUint32(header, uint32(len(names)))
	at := len(profile) + profileTag*len(names)
	var body []byte
	places := map[string]int{}
	for _, name := range names {
		data := tags[name]
		place, known := places[string(data)]
		if !known {
			place = at + len(body)
			places[string(data)] = place
			body = append(body, data...)
			body = append(body, make([]byte, (4-len(body)%4)%4)...)
		}
		profile = append(profile, name...)
		profile = binary.BigEndian.AppendUint32(profile, uint32(place))
		profile = binary.BigEndian.AppendUint32(profile, uint32(len(data)))
	}
	profile = append(profile, body...)
	binary.BigEndian.PutUint32(profile, uint32(len(profile)))
	return profile
}

// withJPEGProfile puts a colour profile behind the start of a JPEG, in as many segments as it needs (ICC.1:2010, B.4).
func withJPEGProfile(file, profile []byte) []byte {
	const most = 65535 - 2 - 14
	if len(profile) == 0 {
		return file
	}
	out := slices.Clone(file[:2])
	parts := slices.Collect(slices.Chunk(profile, most))
	for i, part := range parts {
		out = append(out, 0xff, 0xe2)
		out = binary.BigEndian.AppendUint16(out, uint16(2+14+len(part)))
		out = append(out, "ICC_PROFILE\x00"...)
		out = append(out, byte(i+1), byte(len(parts)))
		out = append(out, part...)
	}
	return append(out, file[2:]...)
}

// withPNGProfile puts a colour profile behind the header chunk of a PNG.
func withPNGProfile(file, profile []byte) []byte {
	const headerEnd = 8 + 12 + 13
	if len(profile) == 0 {
		return file
	}
	var chunk bytes.Buffer
	chunk.WriteString("iCCPRGB\x00\x00")
	packer := zlib.NewWriter(&chunk)
	packer.Write(profile) // into memory: cannot fail
	packer.Close()

	out := slices.Clone(file[:headerEnd])
	out = binary.BigEndian.AppendUint32(out, uint32(chunk.Len()-4))
	out = append(out, chunk.Bytes()...)
	out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(chunk.Bytes()))
	return append(out, file[headerEnd:]...)
}
