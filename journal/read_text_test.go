package journal

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal/note"
)

// An fsSized tells of every file that it has that size.
type fsSized struct {
	fstest.MapFS
	size int64
}

func (f fsSized) Stat(name string) (fs.FileInfo, error) {
	info, err := f.MapFS.Stat(name)
	return sized{info, f.size}, err
}

type sized struct {
	fs.FileInfo
	size int64
}

func (s sized) Size() int64 { return s.size }

// A file may change between being looked at and being read: all of it counts, up to
// what shows that it is too large.
func TestFilesThatChangeWhileTheyAreRead(t *testing.T) {
	const most = note.MaxSize + 4
	for _, length := range []int{0, 1, 700, 5000, most - 1, most, most + 1} {
		for _, told := range []int64{0, 1, int64(length) - 1, int64(length), int64(length) + 1, most + 9} {
			text := strings.Repeat("x", length)
			got, err := readText(fsSized{fstest.MapFS{"a.md": {Data: []byte(text)}}, max(told, 0)}, "a.md")
			if err != nil || string(got) != text[:min(length, most)] {
				t.Errorf("%d bytes told as %d: read %d, %v", length, told, len(got), err)
			}
		}
	}
}
