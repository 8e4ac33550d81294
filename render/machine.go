package render

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"net/url"
	"slices"
	"strings"

	"guidecoat/journal/export"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/place"
)

// A machine is a file for programs. Like a page it is made from the view alone.
type machine struct {
	path  string
	words string // of the link to it at the foot of every page; "" where no page leads to it
	there func(*site) bool
	make  func(*site) ([]place.File, error)
}

const csvName = "costs.csv"

var machines = []machine{
	{feedName, "Feed", hasFeed, single(makeFeed)},
	{"build.json", "Data (JSON)", func(*site) bool { return true }, single(buildJSON)},
	{csvName, "Costs (CSV)", hasCSV, single(costsCSV)},
	{"calendar.ics", "Calendar", func(s *site) bool { return export.HasCalendar([]*view.View{s.v}) }, single(makeCalendar)},
	{stripName, "Strip of tape (picture)", hasStrip, single(stripPicture)},
	{"sitemap.xml", "", hasSitemap, makeSitemap},
	{"robots.txt", "", hasRobots, single(makeRobots)},
}

// single makes the one file of a machine, which goes by its path, out of its content.
func single(content func(*site) ([]byte, error)) func(*site) ([]place.File, error) {
	return func(s *site) ([]place.File, error) {
		data, err := content(s)
		return []place.File{{Data: data}}, err
	}
}

func machineJobs(s *site) []job {
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

// A Machine is what a page holds for programs, and where it leads them.
type Machine struct {
	Feed      string // "" where there is none
	Downloads []Link // for people who come for these files
	Data      *vehicle
}

func machineOf(s *site, at string) Machine {
	var m Machine
	for _, x := range machines {
		if x.words != "" && x.there(s) {
			m.Downloads = append(m.Downloads, Link{Text: s.Word(x.words), Href: root(at) + x.path})
		}
	}
	if hasFeed(s) {
		m.Feed = root(at) + feedName
	}
	if at == "index.html" {
		m.Data = vehicleOf(s)
	}
	return m
}

// address is where a file will stand, "" without a base. An index.html goes by its folder.
func (s *site) address(at string) string { return addressAt(s.o.BaseURL, at) }

func addressAt(base, at string) string {
	if base == "" {
		return ""
	}
	return strings.TrimSuffix(base, "/") + "/" + strings.TrimSuffix(at, "index.html")
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

func buildJSON(s *site) ([]byte, error) {
	var b bytes.Buffer
	err := export.WriteCompact(&b, export.SeenOf(s.v, func(session string) string { return s.paths.sessions[session] }))
	return b.Bytes(), err
}

func makeCalendar(s *site) ([]byte, error) {
	var b bytes.Buffer
	err := export.WriteCalendar(&b, s.v)
	return b.Bytes(), err
}

func hasCSV(s *site) bool { return s.v.Money != nil && len(s.v.Money.Lines) > 0 }

func costsCSV(s *site) ([]byte, error) {
	var b bytes.Buffer
	err := export.WriteCSV(&b, s.v)
	return b.Bytes(), err
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

func makeSitemap(s *site) ([]place.File, error) { return sitemapFiles(siteURLs(s), s.address) }

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
		data, err := xmlFile(urlSet{URLs: list})
		return []place.File{{Path: "sitemap.xml", Data: data}}, err
	}
	var index siteIndex
	var files []place.File
	for part := range slices.Chunk(list, sitemapURLs) {
		data, err := xmlFile(urlSet{URLs: part})
		if err != nil {
			return nil, err
		}
		at := fmt.Sprintf("sitemap-%d.xml", len(files)+1)
		files = append(files, place.File{Path: at, Data: data})
		index.Maps = append(index.Maps, siteURL{Loc: address(at)})
	}
	data, err := xmlFile(index)
	return slices.Insert(files, 0, place.File{Path: "sitemap.xml", Data: data}), err
}

func xmlFile(v any) ([]byte, error) {
	out, err := xml.Marshal(v)
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
