//go:build linux

package folder

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// mount gives a small file system in memory, or skips the test where that is not allowed.
func mount(t *testing.T, size string) string {
	t.Helper()
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("SKIPPED, NOT TESTED: a file system of %s cannot be mounted here (needs root): %v", size, err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, 0); err != nil {
			t.Errorf("unmount: %v", err)
		}
	})
	return dir
}

// TestFullDisk asks for a site that does not fit; the old one must stay as it is, and a smaller one must fit again.
func TestFullDisk(t *testing.T) {
	dir := filepath.Join(mount(t, "400k"), "site")
	old := site("index.html", "home", "a.html", "a", "b.html", "b")
	write(t, dir, old)
	before := tree(t, dir)

	big := site("index.html", "new home", "a.html", "new", "z.html", "z")
	for _, name := range []string{"photos/1.jpg", "photos/2.jpg", "photos/3.jpg"} {
		big[name] = bytes.Repeat([]byte(name), 20_000)
	}
	_, err := Write(dir, Files(big))
	if err == nil || !strings.Contains(err.Error(), "the disk is full") {
		t.Errorf("Write to a full disk: %v", err)
	}
	if diff := cmp.Diff(before, tree(t, dir)); diff != "" {
		t.Errorf("after a full disk (-before +after):\n%s", diff)
	}
	if report := write(t, dir, site("index.html", "new home")); report.Written != 1 || report.Removed != 2 {
		t.Errorf("the next site: %+v", report)
	}
}

// TestReadOnly asks for a site on a disk that may not be written.
func TestReadOnly(t *testing.T) {
	disk := mount(t, "400k")
	dir := filepath.Join(disk, "site")
	write(t, dir, site("index.html", "home"))
	before := tree(t, dir)
	if err := syscall.Mount("tmpfs", disk, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("SKIPPED, NOT TESTED: the file system cannot be made read-only: %v", err)
	}
	_, err := Write(dir, Files(site("index.html", "new home")))
	if err == nil || !strings.Contains(err.Error(), "does not allow it") {
		t.Errorf("Write to a read-only disk: %v", err)
	}
	if diff := cmp.Diff(before, tree(t, dir)); diff != "" {
		t.Errorf("after the error (-before +after):\n%s", diff)
	}
}

// TestForbiddenFolder asks for a site in a folder of another owner.
func TestForbiddenFolder(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("SKIPPED, NOT TESTED: root may write everywhere; TestReadOnly tests the same")
	}
	dir := t.TempDir()
	write(t, dir, site("index.html", "home"))
	if err := os.Chmod(dir, 0o555); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(dir, 0o755)
	if _, err := Write(dir, Files(site("index.html", "new home"))); err == nil || !strings.Contains(err.Error(), "does not allow it") {
		t.Errorf("Write to a forbidden folder: %v", err)
	}
}
