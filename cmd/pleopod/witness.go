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

// witness is a folder that notes what it is asked and a checksum of each answer. Whoever reads through it need not say
// what was read: as long as the folder would answer the same, the reader would come to the same.
type witness struct {
	folder fs.FS
	mu     sync.Mutex
	heard  map[string]digest.Sum // by question
}

func newWitness(folder fs.FS) *witness {
	return &witness{folder: folder, heard: map[string]digest.Sum{}}
}

// note keeps an answer. Of two different answers to one question it keeps neither, so that nothing confirms them.
func (w *witness) note(question string, answer digest.Sum) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if before, known := w.heard[question]; known && before != answer {
		answer = digest.Sum{}
	}
	w.heard[question] = answer
}

// confirms asks the folder again and reports whether it still answers as was heard.
func (w *witness) confirms(heard map[string]digest.Sum) bool {
	for question, answer := range heard {
		if w.ask(question) != answer {
			return false
		}
	}
	return true
}

// ask puts a question that was noted, and returns the checksum of the answer.
func (w *witness) ask(question string) digest.Sum {
	kind, name, _ := strings.Cut(question, " ")
	switch kind {
	case "list":
		return listing(fs.ReadDir(w.folder, name))
	case "stat":
		return described(fs.Stat(w.folder, name))
	case "lstat":
		return described(fs.Lstat(w.folder, name))
	case "link":
		return linked(fs.ReadLink(w.folder, name))
	}
	file, err := w.folder.Open(name)
	if err != nil {
		return digest.Of(fault(err))
	}
	again := &overheard{File: file, sum: sha256.New()}
	defer file.Close()
	if most, err := strconv.ParseInt(kind, 10, 64); err == nil {
		_, _ = io.CopyN(io.Discard, again, most)
	} else {
		_, _ = io.Copy(io.Discard, again)
	}
	return again.answer()
}

// Open implements fs.FS. What was read of the file is noted when it is closed.
func (w *witness) Open(name string) (fs.File, error) {
	file, err := w.folder.Open(name)
	if err != nil {
		w.note("all "+name, digest.Of(fault(err)))
		return nil, err
	}
	return &overheard{File: file, witness: w, name: name, sum: sha256.New()}, nil
}

// ReadDir implements fs.ReadDirFS.
func (w *witness) ReadDir(name string) ([]fs.DirEntry, error) {
	entries, err := fs.ReadDir(w.folder, name)
	w.note("list "+name, listing(entries, err))
	for i, entry := range entries {
		entries[i] = witnessed{entry, w, path.Join(name, entry.Name())}
	}
	return entries, err
}

// Stat implements fs.StatFS.
func (w *witness) Stat(name string) (fs.FileInfo, error) {
	info, err := fs.Stat(w.folder, name)
	w.note("stat "+name, described(info, err))
	return info, err
}

// Lstat implements fs.ReadLinkFS.
func (w *witness) Lstat(name string) (fs.FileInfo, error) {
	info, err := fs.Lstat(w.folder, name)
	w.note("lstat "+name, described(info, err))
	return info, err
}

// ReadLink implements fs.ReadLinkFS.
func (w *witness) ReadLink(name string) (string, error) {
	target, err := fs.ReadLink(w.folder, name)
	w.note("link "+name, linked(target, err))
	return target, err
}

// witnessed is an entry of a folder whose size and time are asked of the witness.
type witnessed struct {
	fs.DirEntry
	witness *witness
	name    string
}

func (e witnessed) Info() (fs.FileInfo, error) { return e.witness.Lstat(e.name) }

// overheard is an open file, with a checksum of what was read of it.
type overheard struct {
	fs.File
	witness *witness
	name    string
	sum     hash.Hash
	read    int64
	ended   bool        // to the end
	info    fs.FileInfo // once it was asked for
}

func (f *overheard) Stat() (fs.FileInfo, error) {
	if f.info != nil {
		return f.info, nil
	}
	info, err := f.File.Stat()
	if err == nil {
		f.info = info
	}
	return info, err
}

func (f *overheard) Read(into []byte) (int, error) {
	n, err := f.File.Read(into)
	f.sum.Write(into[:n])
	f.read += int64(n)
	f.ended = f.ended || err == io.EOF
	return n, err
}

func (f *overheard) Close() error {
	kind := "all "
	if !f.ended {
		kind = strconv.FormatInt(f.read, 10) + " "
	}
	f.witness.note(kind+f.name, f.answer())
	return f.File.Close()
}

func (f *overheard) answer() digest.Sum {
	info, err := f.Stat()
	return digest.Of(described(info, err), f.sum.Sum(nil))
}

// described sums up what a file is, without its times: nothing that is published depends on them. The size of a folder
// is the system's business.
func described(info fs.FileInfo, err error) digest.Sum {
	if err != nil {
		return digest.Of(fault(err))
	}
	if info.IsDir() {
		return digest.Of(info.Mode().Type())
	}
	return digest.Of(info.Mode().Type(), info.Size())
}

// listing sums up the names in a folder and what each is.
func listing(entries []fs.DirEntry, err error) digest.Sum {
	var lines []string
	for _, entry := range entries {
		lines = append(lines, entry.Type().String()+" "+entry.Name())
	}
	return digest.Of(lines, fault(err))
}

func linked(target string, err error) digest.Sum { return digest.Of(target, fault(err)) }

// fault is what an error says, without the path.
func fault(err error) string { return fmt.Sprint(unwrapPath(err)) }
