// Package digest sums up a value in a checksum, so that whatever was made from the value can be kept for as long as the
// value stays the same.
//
// A checksum covers everything that can be reached: all fields of structs, exported or not, what pointers point to, what
// interfaces hold with its type, and maps in the order of their keys. So nobody has to list what something depends on,
// and a new field cannot be forgotten. Two values with the same checksum are taken as equal: SHA-256 makes a mistake less
// likely than a broken machine.
package digest

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"math"
	"reflect"
	"slices"
	"sync"
)

// Sum is the checksum of a value.
type Sum [sha256.Size]byte

// String returns the checksum in hexadecimal digits, to be used as the name of a file.
func (s Sum) String() string { return hex.EncodeToString(s[:]) }

// Seal returns content with its checksum before it, so that Open can tell whether it came back whole.
func Seal(content []byte) []byte {
	sum := sha256.Sum256(content)
	return append(sum[:], content...)
}

// Open returns the content that was sealed, or nil where it is missing or spoilt.
func Open(sealed []byte) []byte {
	if len(sealed) < sha256.Size {
		return nil
	}
	content := sealed[sha256.Size:]
	if sum := sha256.Sum256(content); !bytes.Equal(sum[:], sealed[:sha256.Size]) {
		return nil
	}
	return content
}

// deepest is how far pointers are followed; only values that hold themselves lie deeper.
const deepest = 200

// Of returns the checksum of the values. It is the same in every run of the same program. It panics on functions,
// channels and values that hold themselves, which have no content to sum up.
func Of(values ...any) Sum {
	w := writers.Get().(*writer)
	defer writers.Put(w)
	w.buffer = w.buffer[:0]
	for _, value := range values {
		w.dynamic(reflect.ValueOf(value), 0)
	}
	return sha256.Sum256(w.buffer)
}

// writers are those that nobody uses just now, with their buffers.
var writers = sync.Pool{New: func() any { return new(writer) }}

// writer gathers the content of values in a form in which different values differ.
type writer struct{ buffer []byte }

func (w *writer) number(n uint64) { w.buffer = binary.LittleEndian.AppendUint64(w.buffer, n) }

func (w *writer) text(s string) {
	w.number(uint64(len(s)))
	w.buffer = append(w.buffer, s...)
}

// dynamic writes what an interface holds, with its type.
func (w *writer) dynamic(v reflect.Value, depth int) {
	if !v.IsValid() {
		w.text("")
		return
	}
	w.text(v.Type().String())
	w.value(v, depth+1)
}

func (w *writer) value(v reflect.Value, depth int) {
	if depth > deepest {
		panic("digest: a value that holds itself")
	}
	switch v.Kind() {
	case reflect.Bool:
		w.number(map[bool]uint64{true: 1}[v.Bool()])
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		w.number(uint64(v.Int()))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uintptr:
		w.number(v.Uint())
	case reflect.Float32, reflect.Float64:
		w.number(math.Float64bits(v.Float()))
	case reflect.String:
		w.text(v.String())
	case reflect.Struct:
		for i := range v.NumField() {
			w.value(v.Field(i), depth+1)
		}
	case reflect.Slice, reflect.Array:
		w.list(v, depth)
	case reflect.Map:
		w.table(v, depth)
	case reflect.Pointer, reflect.Interface:
		w.holder(v, depth)
	default:
		panic(fmt.Sprintf("digest: %s has no content to sum up", v.Type()))
	}
}

func (w *writer) list(v reflect.Value, depth int) {
	w.number(uint64(v.Len()))
	if v.Kind() == reflect.Slice && v.Type().Elem().Kind() == reflect.Uint8 {
		w.buffer = append(w.buffer, v.Bytes()...)
		return
	}
	for i := range v.Len() {
		w.value(v.Index(i), depth+1)
	}
}

// holder writes what a pointer or an interface holds, or that it holds nothing.
func (w *writer) holder(v reflect.Value, depth int) {
	if v.IsNil() {
		w.number(0)
		return
	}
	w.number(1)
	if v.Kind() == reflect.Interface {
		w.dynamic(v.Elem(), depth)
		return
	}
	w.value(v.Elem(), depth+1)
}

// table writes a map by the order of what its keys are written as.
func (w *writer) table(v reflect.Value, depth int) {
	var rows [][]byte
	for each := v.MapRange(); each.Next(); {
		var row writer
		row.value(each.Key(), depth+1)
		row.value(each.Value(), depth+1)
		rows = append(rows, row.buffer)
	}
	slices.SortFunc(rows, bytes.Compare)
	w.number(uint64(len(rows)))
	for _, row := range rows {
		w.buffer = append(w.buffer, row...)
	}
}
