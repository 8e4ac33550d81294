package marker

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"maps"
	"strings"
	"testing"
	"testing/fstest"
)

var site = Site{"buyer", Of("Halden"), map[string]Digest{"index.html": sha256.Sum256([]byte("home")), "pictures/a.jpg": sha256.Sum256(nil)}}

// ended is a marker with that list and the right last line.
func ended(list string) string {
	above := site.Head() + list
	return above + end([]byte(above))
}

func TestRead(t *testing.T) {
	text := site.Text()
	line := strings.Repeat("0", 64) + "  "
	tests := []struct {
		name string
		file *fstest.MapFile
		ok   bool
	}{
		{"as written", &fstest.MapFile{Data: []byte(text)}, true},
		{"after a checkout that changed line endings", &fstest.MapFile{Data: []byte(strings.ReplaceAll(text, "\n", "\r\n"))}, true},
		{"without files", &fstest.MapFile{Data: []byte(ended(""))}, true},
		{"absent", nil, false},
		{"empty", &fstest.MapFile{}, false},
		{"of something else", &fstest.MapFile{Data: []byte("colour: red\n")}, false},
		{"of an earlier version, without a list", &fstest.MapFile{Data: []byte("guidecoat site for public\n")}, false},
		{"of an earlier version, without digests", &fstest.MapFile{Data: []byte("guidecoat site for public\nindex.html\n")}, false},
		{"for nobody", &fstest.MapFile{Data: []byte(Site{Build: "x"}.Text())}, false},
		{"of nothing", &fstest.MapFile{Data: []byte(Site{Audience: "public"}.Text())}, false},
		{"with a line too many", &fstest.MapFile{Data: []byte(text + "\n")}, false},
		{"without its end", &fstest.MapFile{Data: []byte(site.Head())}, false},
		{"too large", &fstest.MapFile{Data: append([]byte(text), make([]byte, Largest)...)}, false},
		{"with a note in its list", &fstest.MapFile{Data: []byte(ended(line + "notes/2026-04-11.md\n"))}, false},
		{"with a note in capitals", &fstest.MapFile{Data: []byte(ended(line + "BUILD.MD\n"))}, false},
		{"with a note of another ending", &fstest.MapFile{Data: []byte(ended(line + "a.markdown\n"))}, false},
		{"with a path out of the folder", &fstest.MapFile{Data: []byte(ended(line + "../a.jpg\n"))}, false},
		{"with an absolute path", &fstest.MapFile{Data: []byte(ended(line + "/a.jpg\n"))}, false},
		{"with a backslash", &fstest.MapFile{Data: []byte(ended(line + `..\a.jpg` + "\n"))}, false},
		{"with a control character", &fstest.MapFile{Data: []byte(ended(line + "a\x1b.jpg\n"))}, false},
		{"with the folder itself", &fstest.MapFile{Data: []byte(ended(line + ".\n"))}, false},
		{"with itself", &fstest.MapFile{Data: []byte(ended(line + Marker + "\n"))}, false},
		{"with a file twice", &fstest.MapFile{Data: []byte(ended(line + "a\n" + line + "a\n"))}, false},
		{"with a path without a digest", &fstest.MapFile{Data: []byte(ended("index.html\n"))}, false},
		{"with a short digest", &fstest.MapFile{Data: []byte(ended("00  index.html\n"))}, false},
		{"with a long digest", &fstest.MapFile{Data: []byte(ended("00" + line + "index.html\n"))}, false},
		{"a folder", &fstest.MapFile{Mode: fs.ModeDir}, false},
		{"a pipe", &fstest.MapFile{Mode: fs.ModeNamedPipe}, false},
		{"a link to a marker", &fstest.MapFile{Mode: fs.ModeSymlink, Data: []byte("whole")}, false},
	}
	for _, test := range tests {
		fsys := fstest.MapFS{"site/index.html": &fstest.MapFile{}, "site/whole": &fstest.MapFile{Data: []byte(text)}}
		if test.file != nil {
			fsys["site/"+Marker] = test.file
		}
		got, ok := Read(fsys, "site")
		if ok != test.ok || ok && (got.Audience != "buyer" || got.Build != site.Build) {
			t.Errorf("%s: got %v, %v, want %v", test.name, got, ok, test.ok)
		}
	}
	if got, ok := Read(fstest.MapFS{Marker: {Data: []byte(text)}}, "."); !ok || !maps.Equal(got.Files, site.Files) {
		t.Errorf("in the top folder: got %v, %v", got, ok)
	}
}

// A marker that was cut short at any byte, or has any byte changed, proves nothing.
func TestDamaged(t *testing.T) {
	text := []byte(site.Text())
	for i := range text {
		if _, ok := Parse(text[:i]); ok {
			t.Errorf("cut short to %d of %d bytes it is whole", i, len(text))
		}
		for bit := range 8 {
			changed := []byte(string(text))
			changed[i] ^= 1 << bit
			if _, ok := Parse(changed); ok {
				t.Errorf("with bit %d of byte %d changed it is whole", bit, i)
			}
		}
	}
}

// Of a journal, every line that was written to its end counts.
func TestJournal(t *testing.T) {
	text := site.Head() + Line("index.html", site.Files["index.html"]) + Line("pictures/a.jpg", site.Files["pictures/a.jpg"])
	for cut, want := range map[int]int{0: 2, 1: 1, 81: 1, 82: 0} {
		got, ok := Parse([]byte(text[:len(text)-cut]))
		if ok || got.Audience != "buyer" || len(got.Files) != want {
			t.Errorf("without the last %d bytes: %v, %v", cut, got, ok)
		}
	}
}

func TestNotes(t *testing.T) {
	fsys := fstest.MapFS{"site/a.html": {}, "site/b/2026-04-11.md": {}, "site/BUILD.MD": {}, "site/c.md/x.jpg": {}}
	var got []string
	Notes(fsys, "site", func(p string, err error) { got = append(got, p) })
	if want := "[site/BUILD.MD site/b/2026-04-11.md]"; fmt.Sprint(got) != want {
		t.Errorf("got %v, want %s", got, want)
	}
}
