package main

import (
	"crypto/sha256"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"path"
	"strconv"
	"strings"
	"sync"

	"pleopod/journal/digest"
)

// recordingFS passes on to a folder what it is asked, and records each question with a checksum of the answer. Whoever reads
// through it need not say what was read: as long as the folder would answer the same, the reader would come to the same.
type recordingFS struct {
	folder  fs.FS
	mu      sync.Mutex
	answers map[string]digest.Sum // by question: list, stat, lstat, link, all or the number of bytes that were read, and the path
}

func newRecordingFS(folder fs.FS) *recordingFS {
	return &recordingFS{folder: folder, answers: map[string]digest.Sum{}}
}

// record keeps an answer. Of two different answers to one question it keeps neither, so that the folder never answers the same.
func (r *recordingFS) record(question string, answer digest.Sum) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if before, known := r.answers[question]; known && before != answer {
		answer = digest.Sum{}
	}
	r.answers[question] = answer
}

// stillAnswers asks the folder again and reports whether it answers as it did.
func (r *recordingFS) stillAnswers(recorded map[string]digest.Sum) bool {
	for question, answer := range recorded {
		if r.ask(question) != answer {
			return false
		}
	}
	return true
}

// ask puts a recorded question, and returns the checksum of the answer.
func (r *recordingFS) ask(question string) digest.Sum {
	kind, name, _ := strings.Cut(question, " ")
	switch kind {
	case "list":
		return listSum(fs.ReadDir(r.folder, name))
	case "stat":
		return infoSum(fs.Stat(r.folder, name))
	case "lstat":
		return infoSum(fs.Lstat(r.folder, name))
	case "link":
		return linkSum(fs.ReadLink(r.folder, name))
	}
	file, err := r.folder.Open(name)
	if err != nil {
		return digest.Of(errorText(err))
	}
	again := &recordedFile{File: file, hash: sha256.New()}
	defer file.Close()
	if most, err := strconv.ParseInt(kind, 10, 64); err == nil {
		_, _ = io.CopyN(io.Discard, again, most)
	} else {
		_, _ = io.Copy(io.Discard, again)
	}
	return again.sum()
}

// Open implements fs.FS. What was read of the file is recorded when it is closed.
func (r *recordingFS) Open(name string) (fs.File, error) {
	file, err := r.folder.Open(name)
	if err != nil {
		r.record("all "+name, digest.Of(errorText(err)))
		return nil, err
	}
	return &recordedFile{File: file, fs: r, name: name, hash: sha256.New()}, nil
}

// ReadDir implements fs.ReadDirFS.
func (r *recordingFS) ReadDir(name string) ([]fs.DirEntry, error) {
	entries, err := fs.ReadDir(r.folder, name)
	r.record("list "+name, listSum(entries, err))
	for i, entry := range entries {
		entries[i] = recordedEntry{entry, r, path.Join(name, entry.Name())}
	}
	return entries, err
}

// Stat implements fs.StatFS.
func (r *recordingFS) Stat(name string) (fs.FileInfo, error) {
	info, err := fs.Stat(r.folder, name)
	r.record("stat "+name, infoSum(info, err))
	return info, err
}

// Lstat implements fs.ReadLinkFS.
func (r *recordingFS) Lstat(name string) (fs.FileInfo, error) {
	info, err := fs.Lstat(r.folder, name)
	r.record("lstat "+name, infoSum(info, err))
	return info, err
}

// ReadLink implements fs.ReadLinkFS.
func (r *recordingFS) ReadLink(name string) (string, error) {
	target, err := fs.ReadLink(r.folder, name)
	r.record("link "+name, linkSum(target, err))
	return target, err
}

// recordedEntry is an entry of a folder that records when it is asked for its size and time.
type recordedEntry struct {
	fs.DirEntry
	fs   *recordingFS
	name string
}

func (e recordedEntry) Info() (fs.FileInfo, error) { return e.fs.Lstat(e.name) }

// recordedFile is an open file, with a checksum of what was read of it.
type recordedFile struct {
	fs.File
	fs    *recordingFS
	name  string
	hash  hash.Hash
	read  int64       // bytes so far
	ended bool        // to the end
	info  fs.FileInfo // once it was asked for
}

func (f *recordedFile) Stat() (fs.FileInfo, error) {
	if f.info != nil {
		return f.info, nil
	}
	info, err := f.File.Stat()
	if err == nil {
		f.info = info
	}
	return info, err
}

func (f *recordedFile) Read(into []byte) (int, error) {
	n, err := f.File.Read(into)
	f.hash.Write(into[:n])
	f.read += int64(n)
	f.ended = f.ended || err == io.EOF
	return n, err
}

func (f *recordedFile) Close() error {
	kind := "all "
	if !f.ended {
		kind = strconv.FormatInt(f.read, 10) + " "
	}
	f.fs.record(kind+f.name, f.sum())
	return f.File.Close()
}

func (f *recordedFile) sum() digest.Sum {
	info, err := f.Stat()
	return digest.Of(infoSum(info, err), f.hash.Sum(nil))
}

// infoSum sums up what a file is, without its times: nothing that is published depends on them. The size of a folder
// is the system's business.
func infoSum(info fs.FileInfo, err error) digest.Sum {
	if err != nil {
		return digest.Of(errorText(err))
	}
	if info.IsDir() {
		return digest.Of(info.Mode().Type())
	}
	return digest.Of(info.Mode().Type(), info.Size())
}

// listSum sums up the names in a folder and what each is.
func listSum(entries []fs.DirEntry, err error) digest.Sum {
	var lines []string
	for _, entry := range entries {
		lines = append(lines, entry.Type().String()+" "+entry.Name())
	}
	return digest.Of(lines, errorText(err))
}

func linkSum(target string, err error) digest.Sum { return digest.Of(target, errorText(err)) }

// errorText is what an error says, without the path.
func errorText(err error) string { return fmt.Sprint(unwrapPath(err)) }
