// Package photo makes pictures anew from bare pixels: upright, no larger than used, without what cameras write beside.
package photo

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"runtime"
	"sync"

	"guidecoat/journal/picture"
)

const (
	quality = 82
	// maker names the way pictures are made. Whoever changes it gives it another name.
	maker = "guidecoat photo 2"
)

// widths are those that pages use; none is larger than the picture itself.
var widths = []int{400, 800, picture.Widest}

// A Plan says what will be made of a picture. It is known from the header alone.
type Plan struct {
	Sizes  []Size // the smallest first; at least one
	Ext    string // ".jpg", or ".png" where edges and transparency count
	header picture.Header
	hash   string
	size   int64 // of the file
}

// A Size is one file of a picture.
type Size struct {
	Name          string // by content: the same picture always has the same name
	Width, Height int
}

// Look reads a picture's header: nil for no picture, an error for one never shown.
func Look(name string, data []byte) (*Plan, error) {
	h, err := picture.Look(name, bytes.NewReader(data), int64(len(data)))
	if h == nil {
		return nil, err
	}
	p := &Plan{Ext: ".png", header: *h, hash: hashOf(data), size: int64(len(data))}
	if h.Photo {
		p.Ext = ".jpg"
	}
	w, height := h.Width, h.Height
	if h.Turn > 4 { // on its side
		w, height = height, w
	}
	for _, width := range widths {
		width = min(width, w)
		if n := len(p.Sizes); n > 0 && p.Sizes[n-1].Width == width {
			break
		}
		z := Size{Width: width, Height: max(1, (height*width+w/2)/w)}
		z.Name = fmt.Sprintf("%s-%d%s", p.hash, width, p.Ext)
		p.Sizes = append(p.Sizes, z)
	}
	return p, nil
}

// memory is what all pictures being made may take: ordinary ones on every core, the largest alone.
var memory = newBudget(picture.MaxMemory)

// Clean returns a picture for a page as large as pages use, which holds nothing else.
func Clean(name string, data []byte) ([]byte, error) {
	p, err := Look(name, data)
	if p == nil {
		return nil, cmp.Or(err, errors.New("it is no picture"))
	}
	sizes, err := p.Make(func() ([]byte, error) { return data, nil })
	if err != nil {
		return nil, err
	}
	return sizes[len(sizes)-1], nil
}

// ErrChanged is said of a file that is not what it was when it was looked at.
var ErrChanged = errors.New("it has changed while the site was made; try again")

// Make decodes the picture and returns its sizes. It waits while others leave too little memory.
func (p *Plan) Make(read func() ([]byte, error)) ([][]byte, error) {
	defer memory.take(min(p.header.Memory+p.size, memory.most))()
	data, err := read()
	if err != nil {
		return nil, err
	}
	if hashOf(data) != p.hash {
		return nil, ErrChanged
	}
	src, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("it cannot be read as a picture: %w", err)
	}
	fullRange(src, p.header.Format)
	out := make([][]byte, len(p.Sizes))
	from := sourcesOf(src, image.Rect(0, 0, p.header.Width, p.header.Height))
	turn := p.header.Turn
	for i := len(p.Sizes) - 1; i >= 0; i-- { // each from the next larger one
		w, h := p.Sizes[i].Width, p.Sizes[i].Height
		if turn > 4 {
			w, h = h, w
		}
		made := shrunk(from, w, h).turn(turn)
		from, turn = made.sources(), 1
		var b bytes.Buffer
		if p.Ext == ".jpg" {
			err = jpeg.Encode(&b, made.image(), &jpeg.Options{Quality: quality})
		} else {
			err = png.Encode(&b, made.image())
		}
		if err != nil {
			return nil, err
		}
		out[i] = b.Bytes()
	}
	return out, nil
}

func hashOf(data []byte) string {
	h := sha256.New()
	h.Write([]byte(maker + "\x00"))
	h.Write(data)
	return hex.EncodeToString(h.Sum(nil)[:10])
}

// A budget is bytes that may be in use at one time, until the garbage is collected.
type budget struct {
	mu    sync.Mutex
	freed *sync.Cond
	most  int64
	used  int64
	spent int64 // given back since the garbage was last collected
}

func newBudget(most int64) *budget {
	b := &budget{most: most}
	b.freed = sync.NewCond(&b.mu)
	return b
}

// take waits until n bytes, no more than there are, are left, and returns what gives them back.
func (b *budget) take(n int64) (giveBack func()) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for b.used+n > b.most {
		b.freed.Wait()
	}
	if b.used+b.spent+n > b.most {
		runtime.GC()
		b.spent = 0
	}
	b.used += n
	return func() {
		b.mu.Lock()
		defer b.mu.Unlock()
		b.used -= n
		b.spent += n
		b.freed.Broadcast()
	}
}
