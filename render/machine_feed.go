package render

import (
	"crypto/sha1"
	"encoding/hex"
	"encoding/xml"
	"slices"

	"guidecoat/journal/view"
	"guidecoat/render/tongue"
)

// The feed of sessions, by RFC 4287.
//
// Its links are absolute only where it is known where the site will stand. Without
// that they are relative, which the RFC allows (§2: a link is an IRI reference) and
// a reader resolves against the address it fetched the feed from. An id may never be
// relative (§4.2.6), so without an address it is a UUID made out of names: the same
// for the same session at every run, wherever the site is put. A tag: URI would need
// a domain or a mail address of the builder's, which nobody has told us.

type atomFeed struct {
	XMLName  xml.Name `xml:"http://www.w3.org/2005/Atom feed"`
	Lang     string   `xml:"xml:lang,attr"`
	ID       string   `xml:"id"`
	Title    string   `xml:"title"`
	Subtitle string   `xml:"subtitle,omitempty"`
	Updated  string   `xml:"updated"`
	Author   string   `xml:"author>name"`
	Links    []atomLink
	Maker    atomMaker `xml:"generator"`
	Entries  []atomEntry
}

type atomLink struct {
	XMLName xml.Name `xml:"link"`
	Rel     string   `xml:"rel,attr"`
	Type    string   `xml:"type,attr"`
	Href    string   `xml:"href,attr"`
}

type atomMaker struct {
	Version string `xml:"version,attr,omitempty"`
	Name    string `xml:",chardata"`
}

type atomEntry struct {
	XMLName  xml.Name  `xml:"entry"`
	ID       string    `xml:"id"`
	Title    string    `xml:"title"`
	Updated  string    `xml:"updated"`
	Link     atomLink  // an entry without content must have one (§4.1.2)
	Category *atomTerm `xml:"category"`
	Summary  string    `xml:"summary"`
}

type atomTerm struct {
	Term string `xml:"term,attr"`
}

// feedEntries is how many sessions the feed tells of: who follows wants the newest.
const feedEntries = 100

const feedName = "feed.xml"

func hasFeed(s *site) bool { return len(s.sessions) > 0 }

func makeFeed(s *site) ([]byte, error) {
	f := newFeed(feedID(s, "index.html", ""), s.v.Name, s.Tongue, s.o, func(at string) string { return referenceTo(s, at) })
	f.Subtitle, f.Updated = shorten(bare(s.v.About), 160), moment(s.v.Newest.String())
	newest := s.sessions[max(0, len(s.sessions)-feedEntries):]
	for _, x := range slices.Backward(newest) {
		f.Entries = append(f.Entries, feedEntry(s, x))
	}
	return xmlIndented(f)
}

func newFeed(id, name string, t *tongue.Tongue, o Options, reference func(at string) string) *atomFeed {
	return &atomFeed{Lang: frame{Tongue: t}.lang(), ID: id, Title: name, Author: t.Say("The builder of %s", name), Maker: atomMaker{o.Version, "guidecoat"},
		Links: []atomLink{{Rel: "self", Type: "application/atom+xml", Href: reference(feedName)}, {Rel: "alternate", Type: "text/html", Href: reference("index.html")}}}
}

func xmlIndented(v any) ([]byte, error) {
	out, err := xml.MarshalIndent(v, "", " ")
	return append([]byte(xml.Header), append(out, '\n')...), err
}

func feedEntry(s *site, x *view.SessionView) atomEntry {
	at := s.paths.sessions[x.Name]
	e := atomEntry{ID: feedID(s, at, x.Name), Title: x.Title, Updated: moment(x.Date.String()), Link: atomLink{Rel: "alternate", Type: "text/html", Href: referenceTo(s, at)},
		Summary: shorten(bare(x.Body), 320)}
	if x.Stage != "" {
		e.Category = &atomTerm{x.Stage}
	}
	if e.Summary == "" {
		e.Summary = x.Title
	}
	return e
}

// moment is a day as Atom wants it: it begins at midnight somewhere.
func moment(date string) string { return date + "T00:00:00Z" }

// referenceTo is the address of a file, relative where no base is known.
func referenceTo(s *site, at string) string {
	if a := s.address(at); a != "" {
		return a
	}
	return at
}

// feedID names the feed, or a session by its Name.
func feedID(s *site, at, session string) string {
	if a := s.address(at); a != "" {
		return a
	}
	return uuid(s.v.Name + "\x00" + session)
}

// namespace is that of the ids of guidecoat's feeds. It must never change.
var namespace = [16]byte{0x5d, 0x0f, 0x4c, 0x3b, 0x9a, 0x1e, 0x4b, 0x62, 0x8c, 0x77, 0x3e, 0x21, 0xd4, 0x90, 0xaf, 0x16}

// uuid makes a name-based UUID, version 5 of RFC 9562 §5.5.
func uuid(name string) string {
	sum := sha1.Sum(append(namespace[:], name...))
	sum[6] = sum[6]&0x0f | 0x50
	sum[8] = sum[8]&0x3f | 0x80
	h := hex.EncodeToString(sum[:16])
	return "urn:uuid:" + h[:8] + "-" + h[8:12] + "-" + h[12:16] + "-" + h[16:20] + "-" + h[20:]
}
