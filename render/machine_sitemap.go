package render

import (
	"encoding/xml"
	"fmt"
	"net/url"
	"slices"

	"guidecoat/journal/pick"
	"guidecoat/render/place"
)

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
