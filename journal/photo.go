package journal

import (
	"bufio"
	"errors"
	"image"
	_ "image/jpeg" // the picture formats of a journal: only headers are read here
	_ "image/png"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	_ "golang.org/x/image/webp"
)

// pictureEndings is the file names that are taken for pictures.
var pictureEndings = []string{".jpg", ".jpeg", ".png", ".webp"}

func isPicture(name string) bool {
	return slices.Contains(pictureEndings, strings.ToLower(path.Ext(name)))
}

// readPhoto reads the header of a picture, or says why it is none.
func readPhoto(files fs.FS, name string) (Photo, issue) {
	file, err := files.Open(name)
	if err != nil {
		return Photo{}, issue{code: "file-missing", message: "the file cannot be opened: " + plainError(err)}
	}
	defer file.Close()
	info, err := file.Stat()
	switch {
	case err != nil:
		return Photo{}, issue{code: "file-missing", message: "the file cannot be read: " + plainError(err)}
	case info.IsDir():
		return Photo{}, issue{code: "not-a-picture", message: "it is a folder"}
	case info.Size() == 0:
		return Photo{}, issue{code: "not-a-picture", message: "the file is empty"}
	case info.Size() > maxPhotoBytes:
		return Photo{}, issue{code: "too-long", message: "the file is larger than 64 MB"}
	}
	config, format, err := image.DecodeConfig(bufio.NewReaderSize(io.LimitReader(file, maxPhotoBytes), 64<<10))
	if err != nil {
		return Photo{}, issue{code: "not-a-picture", message: "the file is no picture that can be read; JPEG, PNG and WebP are"}
	}
	if config.Width <= 0 || config.Height <= 0 || config.Width > maxPhotoPixels/config.Height {
		return Photo{}, issue{code: "too-long", message: "the picture has more than 60 million pixels", hint: "save a smaller copy"}
	}
	return Photo{Path: name, Format: format, Width: config.Width, Height: config.Height}, issue{}
}

// plainError returns why a file cannot be read, without the names of folders outside the journal.
func plainError(err error) string {
	var wrapped *fs.PathError
	if errors.As(err, &wrapped) {
		return wrapped.Err.Error()
	}
	return err.Error()
}
