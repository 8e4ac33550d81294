//go:build heic

package photo

import (
	"bytes"
	"image"
	"testing"
)

// The file was made by another program, as are those of WebP.
func TestHEIC(t *testing.T) {
	p, files := made(t, file(t, "card.heic"))
	m, format, err := image.Decode(bytes.NewReader(files[0]))
	if err != nil || format != "jpeg" || p.Ext != ".jpg" || m.Bounds() != image.Rect(0, 0, 256, 128) {
		t.Fatalf("%s, %v, %v", format, m.Bounds(), err)
	}
	for at, red := range map[image.Point]bool{{64, 32}: true, {192, 32}: false, {64, 96}: false, {192, 96}: false} {
		if r, _, b, _ := m.At(at.X, at.Y).RGBA(); (r > b) != red {
			t.Errorf("red at %v is %v", at, !red)
		}
	}
}
