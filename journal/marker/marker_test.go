package marker

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
)

func TestRead(t *testing.T) {
	tests := []struct {
		name     string
		file     *fstest.MapFile
		audience string
		ok       bool
	}{
		{"as written", &fstest.MapFile{Data: []byte(Text("buyer"))}, "buyer", true},
		{"after a checkout that changed line endings", &fstest.MapFile{Data: []byte("guidecoat site for public\r\n")}, "public", true},
		{"absent", nil, "", false},
		{"empty", &fstest.MapFile{}, "", false},
		{"of something else", &fstest.MapFile{Data: []byte("colour: red\n")}, "", false},
		{"for nobody", &fstest.MapFile{Data: []byte(Text(""))}, "", false},
		{"cut short", &fstest.MapFile{Data: []byte("guidecoat site for work")}, "", false},
		{"without end", &fstest.MapFile{Data: []byte("guidecoat site for " + strings.Repeat("x", 1000) + "\n")}, "", false},
		{"a folder", &fstest.MapFile{Mode: fs.ModeDir}, "", false},
		{"a pipe", &fstest.MapFile{Mode: fs.ModeNamedPipe}, "", false},
	}
	for _, test := range tests {
		fsys := fstest.MapFS{"site/index.html": &fstest.MapFile{}}
		if test.file != nil {
			fsys["site/"+Marker] = test.file
		}
		if audience, ok := Read(fsys, "site"); audience != test.audience || ok != test.ok {
			t.Errorf("%s: got %q, %v, want %q, %v", test.name, audience, ok, test.audience, test.ok)
		}
	}
	if audience, ok := Read(fstest.MapFS{Marker: {Data: []byte(Text("public"))}}, "."); audience != "public" || !ok {
		t.Errorf("in the top folder: got %q, %v", audience, ok)
	}
}
