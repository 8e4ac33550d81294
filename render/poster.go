package render

import (
	"cmp"
	"image"
	"image/color"
	"image/draw"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
	"golang.org/x/text/unicode/norm"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
)

// The strip of temporary fixes as a picture, for whoever shows a preview of a page.

type fix struct {
	snag   *view.SnagView
	spells []view.Spell
	days   int
}

func (f fix) words() string { return title(note.PlainWords(f.snag.Words)) }

func (f fix) last() view.Spell { return f.spells[len(f.spells)-1] }

func (s *voice) stripWords(list []fix) string {
	on, days := pick.Count(list, func(f fix) bool { return f.snag.Open }), pick.Map(list, func(f fix) int { return f.days })
	least, most := slices.Min(days), slices.Max(days)
	fixes := s.Say("%d temporary fixes", len(list))
	switch {
	case on > 0:
		return s.Say("%s, %d still on.", fixes, on)
	case most == 0:
		return s.Say("%s, taken off again the same day.", fixes)
	case least == 0:
		return s.Say("%s, taken off again within %d days.", fixes, most)
	case least < most:
		return s.Say("%s, taken off again after %s to %d days.", fixes, s.Grouped(least), most)
	}
	return s.Say("%s, taken off again after %d days.", fixes, most)
}

const (
	stripName = picturesFolder + "strip.png" // pictures of the notes are named by their content, so no two meet
	// What previews show whole. From memory.
	stripWidth, stripHeight = 1200, 630
	stripMargin             = 60.0
	stripRows               = 6 // the newest fixes, in letters that can be read in a small preview
)

// A poster is a picture that is being drawn in a theme's light colours.
type poster struct {
	picture     *image.RGBA
	colours     map[string]color.RGBA
	plain, bold *opentype.Font
	err         error
}

func newPoster(style string) (*poster, error) {
	plain, err := opentype.Parse(goregular.TTF)
	if err != nil {
		return nil, err
	}
	bold, err := opentype.Parse(gobold.TTF)
	if err != nil {
		return nil, err
	}
	p := &poster{picture: image.NewRGBA(image.Rect(0, 0, stripWidth, stripHeight)), colours: coloursOf(style), plain: plain, bold: bold}
	p.rect("ground", 0, 0, stripWidth, stripHeight)
	return p, nil
}

// inFewColours is the picture in the theme's colours, and as they fade into the ground where
// letters and shapes end. So it is soon written and soon fetched.
func (p *poster) inFewColours() image.Image {
	const steps = 16
	ground := p.colours["ground"]
	few := color.Palette{ground}
	for _, token := range slices.Sorted(maps.Keys(p.colours)) {
		c := p.colours[token]
		for i := 1; i <= steps && token != "ground"; i++ {
			mixed := func(from, to uint8) uint8 { return uint8((int(from)*(steps-i) + int(to)*i) / steps) }
			few = append(few, color.RGBA{mixed(ground.R, c.R), mixed(ground.G, c.G), mixed(ground.B, c.B), 255})
		}
	}
	picture, known := image.NewPaletted(p.picture.Bounds(), few), map[color.RGBA]uint8{ground: 0}
	last, index := ground, uint8(0) // most are as the one before
	for i := range picture.Pix {
		if c := (color.RGBA{p.picture.Pix[4*i], p.picture.Pix[4*i+1], p.picture.Pix[4*i+2], 255}); c != last {
			last = c
			var ok bool
			if index, ok = known[c]; !ok {
				index = uint8(few.Index(c))
				known[c] = index
			}
		}
		picture.Pix[i] = index
	}
	return picture
}

// posterColours are what a poster is drawn in where a builder's own style names none.
var posterColours = map[string]string{"ground": "e3e5e2", "ink": "1b1f22", "soft": "474e54", "line": "b9bfbb", "accent": "9c2d0e", "tape": "ecdca6", "edge": "6f777c"}

var colourToken = regexp.MustCompile(`--([a-z]+):\s*#([0-9a-f]{6});`)

// coloursOf are the first that a style gives to each token, which are those for light.
func coloursOf(style string) map[string]color.RGBA {
	hex := map[string]string{}
	for _, m := range colourToken.FindAllStringSubmatch(style, -1) {
		hex[m[1]] = cmp.Or(hex[m[1]], m[2])
	}
	colours := map[string]color.RGBA{}
	for token, otherwise := range posterColours {
		n, _ := strconv.ParseUint(cmp.Or(hex[token], otherwise), 16, 32) // both give six digits
		colours[token] = color.RGBA{uint8(n >> 16), uint8(n >> 8), uint8(n), 255}
	}
	return colours
}

// rect fills a box of whole pixels.
func (p *poster) rect(token string, left, top, right, bottom float64) {
	box := image.Rect(int(math.Round(left)), int(math.Round(top)), int(math.Round(right)), int(math.Round(bottom)))
	draw.Draw(p.picture, box, image.NewUniform(p.colours[token]), image.Point{}, draw.Src)
}

// fill fills the shape between points, each an x and a y. It works on no more of the picture
// than the shape takes.
func (p *poster) fill(token string, points ...float64) {
	box := image.Rectangle{}
	for i := 0; i < len(points); i += 2 {
		x, y := int(math.Floor(points[i])), int(math.Floor(points[i+1]))
		box = box.Union(image.Rect(x, y, x+1, y+1))
	}
	box = box.Intersect(p.picture.Bounds())
	r := vector.NewRasterizer(box.Dx(), box.Dy())
	for i := 0; i < len(points); i += 2 {
		x, y := float32(points[i]-float64(box.Min.X)), float32(points[i+1]-float64(box.Min.Y))
		if i == 0 {
			r.MoveTo(x, y)
		} else {
			r.LineTo(x, y)
		}
	}
	r.ClosePath()
	r.Draw(p.picture, box, image.NewUniform(p.colours[token]), image.Point{})
}

// spelt is words as the letters there are can write them, and whether they can.
func (p *poster) spelt(words string) (string, bool) {
	words = norm.NFC.String(shorten(words, 160)) // there is never room for more
	for _, r := range words {
		if at, err := p.plain.GlyphIndex(nil, r); err != nil || at == 0 {
			return "", false
		}
	}
	return words, true
}

type lettering struct {
	face  font.Face
	words string
}

func (l lettering) width() float64 { return float64(font.MeasureString(l.face, l.words)) / 64 }

// fitted are words that fit between the margins, smaller and in the end shorter where they must.
func (p *poster) fitted(f *opentype.Font, size float64, words string, besides ...float64) lettering {
	room := stripWidth - 2*stripMargin
	for _, width := range besides {
		room -= width
	}
	for least := size * 0.9; ; size -= 2 {
		if size < least {
			size, words = least, shorten(words, len([]rune(words))-2)
		}
		face, err := opentype.NewFace(f, &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
		if err != nil {
			p.err = cmp.Or(p.err, err)
			return lettering{}
		}
		if l := (lettering{face, words}); l.width() <= room || len(words) < len("…")+1 {
			return l
		}
	}
}

// write writes words on their own ground, so that no line runs through them.
func (p *poster) write(l lettering, token string, x, y float64) {
	p.rect("ground", x, y-24, x+l.width(), y+7)
	d := font.Drawer{Dst: p.picture, Src: image.NewUniform(p.colours[token]), Face: l.face, Dot: fixed.Point26_6{X: fixed.Int26_6(x * 64), Y: fixed.Int26_6(y * 64)}}
	d.DrawString(l.words)
}

func (p *poster) fix(s *voice, f fix, x func(measure.Date) float64, until measure.Date, y float64) {
	on := f.last().To == 0
	days, token := p.fitted(p.plain, 26, s.Say("%d days", f.days)), "soft"
	if on {
		days, token = p.fitted(p.bold, 26, s.Say("%d days, still on", f.days)), "accent"
	}
	at := x(f.spells[0].From)
	if words, ok := p.spelt(f.words()); ok {
		const gap = 14
		l := p.fitted(p.bold, 26, words, gap+days.width())
		at = min(at, stripWidth-stripMargin-l.width()-gap-days.width())
		p.write(l, "ink", at, y+24)
		at += l.width() + gap
	}
	p.write(days, token, min(at, stripWidth-stripMargin-days.width()), y+24)
	for _, spell := range f.spells {
		from, to := x(spell.From), x(cmp.Or(spell.To, until))
		from = min(from, to-14) // a day is seen too
		p.fill("edge", torn(from, to, y+31, y+55)...)
		p.fill("tape", torn(from+2, to-2, y+33, y+53)...)
		if spell.To == 0 {
			p.fill("accent", torn(to-7-bite, to, y+29, y+57)...)
		}
	}
}

// teeth are the points of a torn edge, and bite is how deep it is torn.
const (
	teeth = 3
	bite  = 6.0
)

// torn are the points of a piece of tape whose ends are torn alike.
func torn(from, to, top, bottom float64) []float64 {
	var points []float64
	edge := func(x float64, i int) {
		points = append(points, x-bite*float64(i%2), top+(bottom-top)*float64(i)/(2*teeth))
	}
	for i := range 2*teeth + 1 {
		edge(to, i)
	}
	for i := 2 * teeth; i >= 0; i-- {
		edge(from+bite, i)
	}
	return points
}
