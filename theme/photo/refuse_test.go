package photo

import (
	"encoding/binary"
	"image"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"
)

// resizedJPEG changes the size that a file claims to have.
func resizedJPEG(file []byte, width, height uint16) []byte {
	out := append([]byte(nil), file...)
	segments(out, func(marker byte, data []byte) bool {
		if marker == 0xc0 {
			binary.BigEndian.PutUint16(data[1:], height)
			binary.BigEndian.PutUint16(data[3:], width)
		}
		return true
	})
	return out
}

func TestMakeRefuses(t *testing.T) {
	file, picture := jpegOf(t, quarters(300, 200)), pngOf(t, quarters(300, 200))
	tests := []struct {
		name   string
		source []byte
		want   string
	}{
		{"empty", nil, "empty (0 bytes)"},
		{"a PDF", []byte("%PDF-1.7\n%âãÏÓ\n1 0 obj"), "a PDF; photos are JPEG, PNG or WebP"},
		{"a phone's own format", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), "HEIC"},
		{"text", []byte("date: 2026-05-01"), "no photo that can be read"},
		{"cut off early", file[:40], "header of the JPEG"},
		{"cut off late", file[:len(file)-400], "the JPEG is broken or cut off"},
		{"a PNG cut off", picture[:len(picture)-60], "the PNG is broken or cut off"},
		{"a WebP cut off", webpOf(quarters(300, 200))[:2000], "the WebP is broken or cut off"},
		{"65,000 by 65,000", resizedJPEG(file, 65000, 65000), "65000 × 65000 pixels; at most 60 million"},
		{"61 megapixels", resizedJPEG(file, 8000, 7626), "at most 60 million"},
		{"no width", resizedJPEG(file, 0, 10), "JPEG"},
		{"a PNG of 60,000 by 60,000", pngHeader(60000, 60000, 8), "at most 60 million"},
		{"a deep PNG that fills the memory", pngHeader(9999, 6000, 16), "MB of memory"},
	}
	for _, test := range tests {
		_, err := Make(test.source)
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want an error with %q", test.name, err, test.want)
		}
	}
}

// pngHeader is the start of a PNG with alpha that claims a size.
func pngHeader(width, height uint32, depth byte) []byte {
	data := binary.BigEndian.AppendUint32(nil, width)
	data = binary.BigEndian.AppendUint32(data, height)
	data = append(data, depth, 6, 0, 0, 0)
	return append([]byte("\x89PNG\r\n\x1a\n"), pngChunk("IHDR", data)...)
}

// TestHeavyJPEGIsRefused claims a progressive photo whose coefficients alone fill a gigabyte.
func TestHeavyJPEGIsRefused(t *testing.T) {
	frame := "\x08\x1e\x00\x1e\x00\x03\x01\x11\x00\x02\x11\x00\x03\x11\x00" // 7680 × 7680, no colour at half the size
	source := append([]byte{0xff, 0xd8}, segment(0xc2, frame)...)
	source = append(source, segment(0xda, "\x01\x01\x00\x00\x00\x00")...)
	_, err := Make(source)
	if err == nil || !strings.Contains(err.Error(), "MB of memory") {
		t.Errorf("Make: %v, want a refusal for its memory", err)
	}
}

// TestHeaderAloneTakesNoMemory measures what a huge claim costs.
func TestHeaderAloneTakesNoMemory(t *testing.T) {
	source := resizedJPEG(jpegOf(t, quarters(300, 200)), 65000, 65000)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	Make(source)
	runtime.ReadMemStats(&after)
	if used := after.TotalAlloc - before.TotalAlloc; used > 1<<20 {
		t.Errorf("refusing a photo by its header took %d bytes", used)
	}
}

// TestTwoAtOnce counts the photos in work: small ones two by two, large ones alone.
func TestTwoAtOnce(t *testing.T) {
	var mutex sync.Mutex
	var all sync.WaitGroup
	weights, most, heavy := 0, 0, false
	for i := range 40 {
		all.Go(func() {
			memory := int64(1)
			if i%5 == 0 {
				memory = large + 1
			}
			done := takeTurns(memory)
			mutex.Lock()
			weights++
			most = max(most, weights)
			heavy = heavy || memory > large && weights > 1
			mutex.Unlock()
			runtime.Gosched()
			mutex.Lock()
			weights--
			mutex.Unlock()
			done()
		})
	}
	all.Wait()
	if most > 2 {
		t.Errorf("%d photos were in work at once", most)
	}
	if heavy {
		t.Error("a large photo was not alone")
	}
}

// TestMakeWaitsForItsTurn takes both places, so that a photo must wait.
func TestMakeWaitsForItsTurn(t *testing.T) {
	done := takeTurns(large + 1)
	source, made := jpegOf(t, quarters(30, 20)), make(chan error)
	go func() {
		_, err := Make(source)
		made <- err
	}()
	select {
	case <-made:
		done()
		t.Fatal("a third photo was made while two were in work")
	case <-time.After(50 * time.Millisecond):
	}
	done()
	if err := <-made; err != nil {
		t.Error(err)
	}
}

func TestName(t *testing.T) {
	picture := Picture{Hash: "1f0c88aa",
		Sizes: []Size{{Width: 480, Height: 360, Format: JPEG}, {Width: 720, Height: 960, Format: PNG}}}
	tests := []struct {
		source string
		i      int
		want   string
	}{
		{"photos/amber with eggs.JPG", 0, "amber-with-eggs-1f0c88aa-480.jpg"},
		{"/home/somebody/pictures/Tank 2.png", 1, "tank-2-1f0c88aa-960.png"},
		{`C:\Users\somebody\tank.jpg`, 0, "tank-1f0c88aa-480.jpg"},
		{"..", 0, "photo-1f0c88aa-480.jpg"},
		{"photos/", 0, "photos-1f0c88aa-480.jpg"},
		{"小虾.jpg", 0, "photo-1f0c88aa-480.jpg"},
		{"--a__b..c--.jpeg", 0, "a-b-c-1f0c88aa-480.jpg"},
		{strings.Repeat("long name ", 20) + ".jpg", 0, "long-name-long-name-long-name-long-name-1f0c88aa-480.jpg"},
		{"<script>.jpg", 0, "script-1f0c88aa-480.jpg"},
		{"", 0, "photo-1f0c88aa-480.jpg"},
	}
	for _, test := range tests {
		if got := picture.Name(test.source, test.i); got != test.want {
			t.Errorf("Name(%q, %d) = %q, want %q", test.source, test.i, got, test.want)
		}
	}
}

// FuzzHeader reads any bytes as the notes of each format, and small ones as photos. Nothing may panic, and an
// orientation is 1 to 8.
func FuzzHeader(f *testing.F) {
	p, profile := quarters(16, 12), profileOf(false)
	f.Add(jpegWith(jpegOf(f, p), binary.BigEndian, 6, profile))
	f.Add(pngWith(pngOf(f, p), 3, profile))
	f.Add(webpWith(webpOf(p), 16, 12, 8, profile))
	f.Add(exif(binary.LittleEndian, 7))
	f.Add(profile)
	f.Fuzz(func(t *testing.T, source []byte) {
		for _, k := range kinds {
			if n := k.notes(source); n.orientation < 1 || n.orientation > 8 {
				t.Errorf("%s: orientation %d", k.name, n.orientation)
			}
		}
		if o := orientation(source); o < 1 || o > 8 {
			t.Errorf("orientation %d", o)
		}
		if kept := colours(source); kept != nil && colours(kept) == nil {
			t.Error("a profile that was kept cannot be read again")
		}
		k, err := sniff(source)
		if err != nil {
			return
		}
		if config, err := k.config(source); err != nil || config.Width*config.Height > 1<<16 {
			return
		}
		picture, err := Make(source)
		if err != nil {
			return
		}
		for _, size := range picture.Sizes {
			open(t, size)
		}
	})
}

// BenchmarkMake makes the three sizes of a photo of 12 megapixels.
func BenchmarkMake(b *testing.B) {
	p := image.NewRGBA(image.Rect(0, 0, 4000, 3000))
	for i := range p.Pix {
		p.Pix[i] = byte(i*i>>7 ^ i>>3)
	}
	source := jpegOf(b, p)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Make(source); err != nil {
			b.Fatal(err)
		}
	}
}
