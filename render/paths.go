package render

import (
	"cmp"
	"path"
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"guidecoat/journal/pick"
)

// Where pages stand, and how a list that is too long for one is bound in volumes, by year, stage or sort. Links ask the book where an entry is.

// Where the pages stand that the navigation leads to.
const (
	buildFront    = "index.html"
	sessionsFront = "sessions/index.html"
	moneyFront    = "money.html"
	snagsFront    = "snags.html"
	partsFront    = "parts.html"
	measuredFront = "measured.html"
	packFront     = "pack.html"
	sellingFront  = "selling.html"
	pagesFront    = "pages/index.html"
	notesFront    = "notes/index.html"
)

const (
	albumFolder = "album/"
	albumFront  = albumFolder + "index.html"
	placesFront = albumFolder + "places.html"
)

const picturesFolder = "pictures/"

// recordStyle is the style that the record has besides that of all pages.
const recordStyle = "record.css"

// The icon beside a page's title: a grey panel with a strip of masking tape.
const (
	iconName = "icon.svg"
	icon     = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><rect width="32" height="32" rx="6" fill="#55626b"/><g fill="#1b1f22"><circle cx="7" cy="6" r="1.3"/><circle cx="22" cy="5" r="1"/><circle cx="27" cy="9" r="1.4"/><circle cx="14" cy="9" r=".9"/><circle cx="9" cy="27" r="1.2"/><circle cx="24" cy="26" r="1.1"/></g><path d="M0 21 32 11l0 7-32 10z" fill="#ecdca6"/></svg>`
)

// unique makes a path out of a name; one that is taken gets a number, the next after the last given.
func unique(taken map[string]int, before, name, after string) string {
	if after != "" {
		name = slug(name)
	}
	first := before + name + after
	at := first
	for taken[at] > 0 {
		taken[first]++
		at = before + name + "-" + strconv.Itoa(taken[first]) + after
	}
	taken[at] = 1
	return at
}

// plain are letters that do not come apart into a plain one and a mark.
var plain = strings.NewReplacer("ø", "o", "æ", "ae", "œ", "oe", "ß", "ss", "đ", "d", "ð", "d", "þ", "th", "ł", "l", "ı", "i")

// slug makes a file name out of any words: small letters, digits and hyphens.
func slug(name string) string {
	var b strings.Builder
	for _, r := range norm.NFD.String(plain.Replace(strings.ToLower(name))) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case unicode.Is(unicode.Mn, r):
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 80 {
			break
		}
	}
	out := strings.Trim(b.String(), "-")
	return pick.Either(out == "" || reserved[out], "x"+out, out)
}

// reserved are names that Windows does not give to files, and "index", which is ours.
var reserved = func() map[string]bool {
	names := map[string]bool{"con": true, "prn": true, "aux": true, "nul": true, "index": true}
	for n := range 10 {
		names["com"+strconv.Itoa(n)], names["lpt"+strconv.Itoa(n)] = true, true
	}
	return names
}()

// root leads from a page to the top of the site: "", or "../" for each folder.
func root(at string) string { return strings.Repeat("../", strings.Count(at, "/")) }

// listsOf are the paths that the list of a page in a folder may have.
func listsOf(at string) []string {
	dir := path.Dir(at)
	if dir == "." {
		return nil
	}
	return []string{dir + "/index.html", dir + ".html"}
}

// A Link is words that lead somewhere, or plain words where Href is "".
type Link struct {
	Text, Href string
	Typed      bool   // the words are of the notes
	Current    string // as aria-current says it: "page" where it leads to the page it stands on
}

// volumeWeight is how much one page holds: a weight of one is about a line and 300 to 450 bytes.
const volumeWeight = 600

type entry struct {
	shelf, name string   // entries of one shelf are bound together; what it is called
	weight      int      // in lines
	anchors     []string // its own, and those of the headings it may be the first below
}

// A volume is a page with the entries from one up to another.
type volume struct {
	path     string
	name     string // of its shelf; "" where it is the only one
	nth      int    // of those of the shelf, from 1; 0 where there is one
	front    bool   // it is the page that the navigation leads to
	from, to int
}

// A book is a list in its volumes, one as a rule.
type book struct {
	front   string // the path of the page that the navigation leads to
	volumes []volume
	where   map[string]string // the page that an anchor is on
}

// A binding says how a list is bound.
type binding struct {
	front  string         // the path of the page that the navigation leads to
	taken  map[string]int // paths that its pages may not have, and will have
	cover  string         // of a long list, the name of a front page without entries; "" for none
	newest bool           // the front page holds the last entries, not the first
}

type bound[T any] struct {
	*book
	list []T
}

func bind[T any](how binding, list []T, of func(T) entry) bound[T] {
	entries := make([]entry, len(list))
	for i, x := range list {
		entries[i] = of(x)
	}
	return bound[T]{how.bind(entries), list}
}

func (b bound[T]) in(v volume) []T { return b.list[v.from:v.to] }

func (how binding) bind(list []entry) *book {
	all := 0
	for _, e := range list {
		all += e.weight
	}
	b := &book{front: how.front, where: map[string]string{}}
	if all <= volumeWeight {
		b.volumes = []volume{{path: how.front, to: len(list)}}
	} else {
		b.volumes = how.cut(list)
	}
	front := 0
	if how.newest {
		front = len(b.volumes) - 1
	}
	b.volumes[front].path, b.volumes[front].front = how.front, true
	for _, v := range b.volumes {
		for _, e := range list[v.from:v.to] {
			for _, a := range e.anchors {
				if b.where[a] == "" {
					b.where[a] = v.path
				}
			}
		}
	}
	return b
}

// cut makes the volumes of a long list, and names them.
func (how binding) cut(list []entry) []volume {
	var volumes []volume
	if how.cover != "" {
		volumes = []volume{{name: how.cover}}
	}
	folder := strings.TrimSuffix(strings.TrimSuffix(how.front, "index.html"), ".html")
	if !strings.HasSuffix(folder, "/") {
		folder += "/"
	}
	for from, nth := 0, 1; from < len(list); {
		to, weight := from+1, list[from].weight
		for to < len(list) && list[to].shelf == list[from].shelf && weight+list[to].weight <= volumeWeight {
			weight += list[to].weight
			to++
		}
		v := volume{path: list[from].shelf, name: list[from].name, from: from, to: to}
		goesOn := to < len(list) && list[to].shelf == list[from].shelf
		if nth > 1 {
			v.path += "-" + strconv.Itoa(nth)
		}
		if nth > 1 || goesOn {
			v.nth = nth
		}
		v.path = unique(how.taken, folder, v.path, ".html")
		volumes = append(volumes, v)
		from, nth = to, nth+1
		if !goesOn {
			nth = 1
		}
	}
	return volumes
}

// A Shelf leads to the pages bound together: by its name, or by numbers behind it.
type Shelf struct {
	Name  string // "" where there is one page
	Pages []Link
}

// nav leads from one of its pages to the others; nil where there are none.
func (b *book) nav(at string) []Shelf {
	if len(b.volumes) == 1 {
		return nil
	}
	var list []Shelf
	for _, v := range b.volumes {
		l := Link{Text: v.name, Href: root(at) + v.path}
		if v.path == at {
			l.Current = "page"
		}
		if v.nth > 0 {
			l.Text = strconv.Itoa(v.nth)
		}
		if v.nth > 1 {
			last := &list[len(list)-1]
			last.Pages = append(last.Pages, l)
			continue
		}
		list = append(list, Shelf{given(v.nth == 1, v.name), []Link{l}})
	}
	return list
}

func (b *book) to(at, anchor string) string {
	page := cmp.Or(b.where[anchor], b.front)
	return given(page != at, root(at)+page) + "#" + anchor
}
