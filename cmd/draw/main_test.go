package main

import (
	"bytes"
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

// The pictures of the example are what this program draws. Drawing all of them takes
// long, so one of each format is held to it byte for byte.
func TestPicturesOfTheExample(t *testing.T) {
	folder := filepath.Join("..", "..", "example-build", "photos")
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) != len(pictures) {
		t.Errorf("%d pictures are drawn, %d are in the example", len(pictures), len(entries))
	}
	drawn := map[string]bool{}
	for _, p := range pictures {
		have, err := os.ReadFile(filepath.Join(folder, p.name))
		if err != nil {
			t.Error(err)
			continue
		}
		if drawn[filepath.Ext(p.name)] {
			continue
		}
		drawn[filepath.Ext(p.name)] = true
		want, err := encode(p.name, p.draw)
		if err != nil {
			t.Fatal(err)
		}
		// The vector rasteriser is written in assembly for amd64 alone and may
		// round otherwise elsewhere.
		if runtime.GOARCH == "amd64" && !bytes.Equal(have, want) {
			t.Errorf("%s is not what is drawn: run go run ./cmd/draw example-build/photos", p.name)
		}
	}
}
