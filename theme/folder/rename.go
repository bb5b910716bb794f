package folder

import (
	"errors"
	"io/fs"
	"os"
	"runtime"
	"time"
)

// rename moves a file over another. Windows refuses that while a scanner or a reader holds the old one open, so it is
// tried again for up to two seconds there (see golang.org/issue/8914).
func rename(root *os.Root, from, to string) error {
	wait := 5 * time.Millisecond
	for {
		err := root.Rename(from, to)
		if err == nil || runtime.GOOS != "windows" || wait > time.Second || errors.Is(err, fs.ErrNotExist) {
			return err
		}
		time.Sleep(wait)
		wait *= 2
	}
}
