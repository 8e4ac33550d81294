package render

import (
	"bufio"
	"crypto/sha256"
	"encoding/binary"
	"hash"
	"maps"
	"math"
	"reflect"
	"slices"
	"sync"

	"guidecoat/journal/view"
)

// A Digest stands for all that a page is made of: its data, the theme, the program.
// Equal digests mean equal pages.
type Digest [16]byte

// A Memory knows what the pages that stand in the output folder were made of, so
// that one that would come out the same need not be made again. It is used from
// several goroutines at once.
type Memory interface {
	// Stands tells whether the page at a path of the site is there, as it was made, of
	// just that.
	Stands(path string, of Digest) bool
	// Made notes what the page at that path is made of, whether or not it stood.
	Made(path string, of Digest)
}

// A digester makes the digests of the pages of one site.
type digester struct {
	site  []byte   // what all of them are made of besides their own data
	snags sync.Map // the digests of snags, by where they are: many pages tell of the same
}

func (s *site) digester() *digester {
	d := newDigest()
	d.text(s.o.Maker)
	d.text(s.o.Theme.Digest)
	for _, m := range []map[string]string{s.paths.byNote, s.paths.ids} { // where links in words lead
		for _, k := range slices.Sorted(maps.Keys(m)) {
			d.text(k)
			d.text(m[k])
		}
		d.number(len(m))
	}
	for _, p := range slices.Sorted(maps.Keys(s.files)) {
		d.text(p)
		d.text(s.files[p].at) // pictures are named after their content
	}
	return &digester{site: d.sum()}
}

// digests are used again for page after page.
var digests = sync.Pool{New: func() any { return newDigest() }}

// of is the digest of a page with that data. It is not ok where the data hold
// something whose content cannot be told.
func (g *digester) of(data any) (Digest, bool) { return g.sum(reflect.ValueOf(data)) }

func (g *digester) sum(v reflect.Value) (Digest, bool) {
	d := digests.Get().(*digest)
	defer digests.Put(d)
	d.hash.Reset()
	d.digester, d.opaque = g, false
	d.Write(g.site)
	d.value(v)
	return Digest(d.sum()[:len(Digest{})]), !d.opaque
}

// snag writes the digest of a snag, which is made once: it holds all that was ever
// said of it.
func (d *digest) snag(at reflect.Value) {
	if of, known := d.digester.snags.Load(at.Pointer()); known {
		of := of.(Digest)
		d.Write(of[:])
		return
	}
	of, ok := d.digester.sum(at.Elem())
	if !ok {
		d.opaque = true
		return
	}
	d.digester.snags.Store(at.Pointer(), of)
	d.Write(of[:])
}

// A digest writes values one behind the other, so that different values never come
// out the same: what has no fixed length is preceded by it.
type digest struct {
	*bufio.Writer // to hash
	hash          hash.Hash
	digester      *digester
	opaque        bool
}

func newDigest() *digest {
	h := sha256.New()
	return &digest{Writer: bufio.NewWriter(h), hash: h}
}

// sum ends the digest.
func (d *digest) sum() []byte {
	d.Flush()
	return d.hash.Sum(nil)
}

func (d *digest) number(n int) {
	d.Write(binary.LittleEndian.AppendUint64(d.AvailableBuffer(), uint64(n)))
}

func (d *digest) text(s string) {
	d.number(len(s))
	d.WriteString(s)
}

var bodyType, snagType = reflect.TypeFor[view.Body](), reflect.TypeFor[view.SnagView]()

func (d *digest) value(v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		d.text(v.String())
	case reflect.Bool:
		if v.Bool() {
			d.WriteByte(1)
		} else {
			d.WriteByte(0)
		}
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		d.number(int(v.Int()))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		d.number(int(v.Uint()))
	case reflect.Float32, reflect.Float64:
		d.number(int(math.Float64bits(v.Float())))
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type() == bodyType && v.Type().Field(i).Name == "Doc" {
				continue // it parses Source
			}
			d.value(v.Field(i))
		}
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			d.number(0)
			return
		}
		d.number(1)
		switch {
		case v.Kind() == reflect.Interface:
			d.text(v.Elem().Type().String())
			d.value(v.Elem())
		case v.Type().Elem() == snagType:
			d.snag(v)
		default:
			d.value(v.Elem())
		}
	case reflect.Slice, reflect.Array:
		d.number(v.Len())
		if v.Kind() == reflect.Slice && v.Type().Elem().Kind() == reflect.Uint8 {
			d.Write(v.Bytes())
			return
		}
		for i := range v.Len() {
			d.value(v.Index(i))
		}
	case reflect.Map:
		d.entries(v)
	default:
		d.opaque = true
	}
}

func (d *digest) entries(m reflect.Value) {
	if m.Type().Key().Kind() != reflect.Int {
		d.opaque = true
		return
	}
	d.number(m.Len())
	keys := m.MapKeys()
	slices.SortFunc(keys, func(a, b reflect.Value) int { return int(a.Int() - b.Int()) })
	for _, k := range keys {
		d.value(k)
		d.value(m.MapIndex(k))
	}
}
