package journal

import (
	"bytes"
	"fmt"
	"image"
	_ "image/jpeg" // the header of a JPEG
	_ "image/png"  // the header of a PNG
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	_ "golang.org/x/image/webp" // the header of a WebP
)

// pictureEndings are the endings of files that may be pictures of the journal.
var pictureEndings = []string{".jpg", ".jpeg", ".png", ".webp"}

// isPictureName reports whether a file's name says that it is a picture.
func isPictureName(name string) bool {
	return slices.Contains(pictureEndings, strings.ToLower(path.Ext(name)))
}

// readPhoto reads the header of a picture.
func readPhoto(fsys fs.FS, name string) (Photo, issue) {
	real, info, problem := locate(fsys, name)
	if problem.code != "" {
		return Photo{}, problem
	}
	if info.Size() > maxPhotoBytes {
		return Photo{}, issue{code: "photo-size",
			message: fmt.Sprintf("%s has %d megabytes; at most %d are read", quote(name), info.Size()>>20,
				maxPhotoBytes>>20)}
	}
	file, err := fsys.Open(real)
	if err != nil {
		return Photo{}, missing(name, err)
	}
	defer file.Close()
	return photoHeader(name, file)
}

// photoHeader reads the format and the size of a picture from its first bytes.
func photoHeader(name string, file io.Reader) (Photo, issue) {
	var head bytes.Buffer
	config, format, err := image.DecodeConfig(io.TeeReader(file, &head))
	if err != nil || config.Width <= 0 || config.Height <= 0 {
		return Photo{}, issue{code: "not-a-picture",
			message: quote(name) + " is not a JPEG, PNG or WebP picture", hint: otherFormat(head.Bytes())}
	}
	if pixels := int64(config.Width) * int64(config.Height); pixels > maxPhotoPixels {
		return Photo{}, issue{code: "photo-size",
			message: fmt.Sprintf("%s has %d megapixels; at most %d are read", quote(name), (pixels+999_999)/1_000_000, maxPhotoPixels/1_000_000), hint: "save a smaller copy"}
	}
	return Photo{Path: name, Format: format, Width: config.Width, Height: config.Height}, issue{}
}

// otherFormat names formats that cameras and phones write.
func otherFormat(head []byte) string {
	if len(head) >= 12 && string(head[4:8]) == "ftyp" {
		return "it looks like a HEIC or AVIF picture of a phone; export it as JPEG"
	}
	if bytes.HasPrefix(head, []byte("GIF8")) {
		return "it is a GIF; save it as PNG or JPEG"
	}
	return ""
}
