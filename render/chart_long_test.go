package render

import (
	"strings"
	"testing"

	"guidecoat/journal/measure"
)

// A curve over many years draws no step that nobody could see, and still ends where
// it ends.
func TestLongCurve(t *testing.T) {
	first := measure.NewDate(2001, 1, 1)
	var points []point
	for i := range 5000 {
		points = append(points, point{first.AddDays(i), float64(i)})
	}
	for _, room := range canvases {
		p := room.plane(english.voice, first, points[4999].on, scale{5000, 0, wholes})
		p.stairs(points, "end")
		steps := strings.Count(p.Line, "H")
		if most := int(room.width / stepWidth); steps > most || steps < most/4 {
			t.Errorf("%s: %d steps on %v of room", room.class, steps, room.width)
		}
		if end := "H" + number(p.x(points[4999].on)) + "V" + number(p.y(4999)); !strings.HasSuffix(p.Line, end) {
			t.Errorf("%s: it does not end in %s", room.class, end)
		}
		few := room.plane(english.voice, first, first.AddDays(9), scale{10, 0, wholes})
		few.stairs(points[:10], "end")
		if n := strings.Count(few.Line, "H"); n != 9 {
			t.Errorf("%s: of ten days there are %d steps", room.class, n)
		}
	}
}
