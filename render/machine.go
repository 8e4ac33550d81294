package render

import (
	"bytes"
	"cmp"
	"crypto/sha1"
	"encoding/hex"
	"encoding/xml"
	"fmt"
	"net/url"
	"slices"

	"guidecoat/journal/export"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/place"
	"guidecoat/render/tongue"
)

// The files for programs, which are made from the view like the pages.

// A machine is a file for programs, of a site or of a garage's. Like a page it is made from the view alone.
type machine[S any] struct {
	path  string
	words string // of the link to it at the foot of every page; "" where no page leads to it
	there func(S) bool
	make  func(S) ([]place.File, error)
}

func always[S any](S) bool { return true }

var machines = []machine[*site]{
	{feedName, "Feed", hasFeed, oneFile(makeFeed)},
	{"build.json", "Data (JSON)", always[*site], exported(func(b *bytes.Buffer, s *site) error {
		return export.WriteCompact(b, export.SeenOf(s.v, func(session string) string { return s.paths.sessions[session] }))
	})},
	{csvName, "Costs (CSV)", hasCSV, exported(func(b *bytes.Buffer, s *site) error { return export.WriteCSV(b, s.v) })},
	{"calendar.ics", "Calendar", func(s *site) bool { return export.HasCalendar([]*view.View{s.v}) },
		exported(func(b *bytes.Buffer, s *site) error { return export.WriteCalendar(b, s.v) })},
	{stripName, "Strip of tape (picture)", hasStrip, oneFile(stripPicture)},
	{"sitemap.xml", "", hasSitemap, func(s *site) ([]place.File, error) { return sitemapFiles(siteURLs(s), s.address) }},
	{"robots.txt", "", hasRobots, oneFile(makeRobots)},
}

// oneFile makes the one file of a machine, which goes by its path, out of its content.
func oneFile[S any](content func(S) ([]byte, error)) func(S) ([]place.File, error) {
	return func(s S) ([]place.File, error) {
		data, err := content(s)
		return []place.File{{Data: data}}, err
	}
}

// exported does so with what a function writes.
func exported(write func(*bytes.Buffer, *site) error) func(*site) ([]place.File, error) {
	return oneFile(func(s *site) ([]byte, error) {
		var b bytes.Buffer
		err := write(&b, s)
		return b.Bytes(), err
	})
}

func machineJobs[S any](machines []machine[S], s S) []job {
	var jobs []job
	for _, m := range machines {
		if !m.there(s) {
			continue
		}
		jobs = append(jobs, func() ([]place.File, error) {
			files, err := m.make(s)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", m.path, err)
			}
			if files[0].Path == "" {
				files[0].Path = m.path
			}
			return files, nil
		})
	}
	return jobs
}

// downloads lead to the files that people come for too, from a page whose root that is.
func downloads[S any](machines []machine[S], s S, t *tongue.Tongue, root string) []Link {
	list := pick.Where(machines, func(m machine[S]) bool { return m.words != "" && m.there(s) })
	return pick.Map(list, func(m machine[S]) Link { return Link{Text: t.Word(m.words), Href: root + m.path} })
}

func machineOf(s *site, at string) Machine {
	m := Machine{Downloads: downloads(machines, s, s.Tongue, root(at))}
	if hasFeed(s) {
		m.Feed = root(at) + feedName
	}
	if at == "index.html" {
		m.Data = vehicleOf(s)
	}
	return m
}

// CheckBaseURL says what is wrong with an address that a site is to stand at.
func CheckBaseURL(base string) error {
	u, err := url.Parse(base)
	switch {
	case err != nil || u.Scheme != "https" && u.Scheme != "http" || u.Host == "":
		return fmt.Errorf("%q is not a whole address such as https://example.org/halden/", base)
	case u.RawQuery != "" || u.Fragment != "" || u.User != nil:
		return fmt.Errorf("the address %q must hold no name of a user, no question mark and no #", base)
	}
	return nil
}

// The sitemap (sitemaps.org) takes whole addresses and invites visitors: only with a base, and for the public.

type urlSet struct {
	XMLName xml.Name  `xml:"http://www.sitemaps.org/schemas/sitemap/0.9 urlset"`
	URLs    []siteURL `xml:"url"`
}

type siteIndex struct {
	XMLName xml.Name  `xml:"http://www.sitemaps.org/schemas/sitemap/0.9 sitemapindex"`
	Maps    []siteURL `xml:"sitemap"`
}

type siteURL struct {
	Loc     string `xml:"loc"`
	LastMod string `xml:"lastmod,omitempty"`
}

// sitemapURLs is how many addresses the protocol allows in one file.
const sitemapURLs = 50_000

func hasSitemap(s *site) bool { return s.o.BaseURL != "" && s.v.Indexed }

func siteURLs(s *site) []siteURL {
	changed := map[string]string{"index.html": s.v.Newest.String(), "sessions/index.html": s.v.Newest.String()}
	for _, x := range s.sessions {
		changed[s.paths.sessions[x.Name]] = x.Date.String()
	}
	return pick.Map(s.sheets, func(at string) siteURL { return siteURL{s.address(at), changed[at]} })
}

// sitemapFiles is one file, or an index of several where one must not hold so many.
func sitemapFiles(list []siteURL, address func(string) string) ([]place.File, error) {
	if len(list) <= sitemapURLs {
		data, err := xmlFile(xml.Marshal(urlSet{URLs: list}))
		return []place.File{{Path: "sitemap.xml", Data: data}}, err
	}
	var index siteIndex
	var files []place.File
	for part := range slices.Chunk(list, sitemapURLs) {
		data, err := xmlFile(xml.Marshal(urlSet{URLs: part}))
		if err != nil {
			return nil, err
		}
		at := fmt.Sprintf("sitemap-%d.xml", len(files)+1)
		files = append(files, place.File{Path: at, Data: data})
		index.Maps = append(index.Maps, siteURL{Loc: address(at)})
	}
	data, err := xmlFile(xml.Marshal(index))
	return slices.Insert(files, 0, place.File{Path: "sitemap.xml", Data: data}), err
}

// xmlFile is a file of what package xml has made.
func xmlFile(out []byte, err error) ([]byte, error) {
	return append([]byte(xml.Header), append(out, '\n')...), err
}

// A robots.txt counts only at the top of a host (RFC 9309 §2.3), where all it does
// here is to name the sitemap. The other copies have none: to forbid fetching a page
// would keep robots from reading on it that it is not to be listed.

func hasRobots(s *site) bool {
	u, err := url.Parse(s.o.BaseURL)
	return hasSitemap(s) && err == nil && (u.Path == "" || u.Path == "/")
}

func makeRobots(s *site) ([]byte, error) {
	return []byte("User-agent: *\nDisallow:\n\nSitemap: " + s.address("sitemap.xml") + "\n"), nil
}

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
	return xmlFile(xml.MarshalIndent(f, "", " "))
}

func newFeed(id, name string, t *tongue.Tongue, o Options, reference func(at string) string) *atomFeed {
	return &atomFeed{Lang: frame{Tongue: t}.lang(), ID: id, Title: name, Author: t.Say("The builder of %s", name), Maker: atomMaker{o.Version, "guidecoat"},
		Links: []atomLink{{Rel: "self", Type: "application/atom+xml", Href: reference(feedName)}, {Rel: "alternate", Type: "text/html", Href: reference("index.html")}}}
}

func feedEntry(s *site, x *view.SessionView) atomEntry {
	at := s.paths.sessions[x.Name]
	e := atomEntry{ID: feedID(s, at, x.Name), Title: x.Title, Updated: moment(x.Date.String()), Link: atomLink{Rel: "alternate", Type: "text/html", Href: referenceTo(s, at)},
		Summary: cmp.Or(shorten(bare(x.Body), 320), x.Title)}
	if x.Stage != "" {
		e.Category = &atomTerm{x.Stage}
	}
	return e
}

// moment is a day as Atom wants it: it begins at midnight somewhere.
func moment(date string) string { return date + "T00:00:00Z" }

// referenceTo is the address of a file, relative where no base is known.
func referenceTo(s *site, at string) string {
	return cmp.Or(s.address(at), at)
}

// feedID names the feed, or a session by its Name.
func feedID(s *site, at, session string) string {
	return cmp.Or(s.address(at), uuid(s.v.Name+"\x00"+session))
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
