package render

import (
	"cmp"
	"encoding/json"
	"slices"

	"guidecoat/journal/view"
	"guidecoat/render/place"
)

// A garageMachine is a file of a garage's site for programs, besides those of each build.
type garageMachine struct {
	path  string
	words string // of the link to it at the foot of the front page; "" for none
	make  job
}

func (s *garageSite) machines() []garageMachine {
	one := func(path string, content func() ([]byte, error)) job {
		return func() ([]place.File, error) {
			data, err := content()
			return []place.File{{Path: path, Data: data}}, err
		}
	}
	var list []garageMachine
	if slices.ContainsFunc(s.builds, func(b housed) bool { return hasFeed(b.site) }) {
		list = append(list, garageMachine{feedName, "Feed", one(feedName, s.feed)})
	}
	list = append(list, garageMachine{"garage.json", "Data (JSON)", one("garage.json", s.json)})
	own := &site{v: &view.View{Copy: s.Copy}, o: s.o}
	if hasSitemap(own) {
		list = append(list, garageMachine{"sitemap.xml", "", s.sitemap})
	}
	if hasRobots(own) {
		list = append(list, garageMachine{"robots.txt", "", one("robots.txt", func() ([]byte, error) { return makeRobots(own) })})
	}
	return list
}

// reference is the address of a file of the garage's site, relative where no base is known.
func (s *garageSite) reference(at string) string { return cmp.Or(addressAt(s.o.BaseURL, at), at) }

// feed is that of the newest sessions of all builds, with the ids that they have in the feed of their build.
func (s *garageSite) feed() ([]byte, error) {
	f := newFeed(cmp.Or(addressAt(s.o.BaseURL, ""), uuid("garage\x00"+s.Name)), s.Name, s.tongue(), s.o, s.reference)
	type told struct {
		of housed
		x  *view.SessionView
	}
	var list []told
	for _, b := range s.builds {
		for _, x := range slices.Backward(b.sessions) {
			list = append(list, told{b, x})
		}
	}
	slices.SortStableFunc(list, func(a, b told) int { return cmp.Compare(b.x.Date, a.x.Date) })
	f.Updated = moment(list[0].x.Date.String())
	for _, l := range list[:min(len(list), feedEntries)] {
		e := feedEntry(l.of.site, l.x)
		e.Title = l.of.v.Name + ": " + e.Title
		e.Link.Href = s.reference(l.of.folder + "/" + l.of.paths.sessions[l.x.Name])
		f.Entries = append(f.Entries, e)
	}
	return xmlIndented(f)
}

type listedBuild struct {
	Build  string  `json:"build"`
	State  string  `json:"state"` // open, clear or sold
	Newest *string `json:"newest"`
	Page   string  `json:"page"`
	Data   string  `json:"data"`
}

func (s *garageSite) json() ([]byte, error) {
	list := []listedBuild{}
	for _, b := range s.builds {
		l := listedBuild{Build: b.v.Name, State: statusOf(b.site).state, Page: b.folder + "/index.html", Data: b.folder + "/build.json"}
		if hasFeed(b.site) {
			newest := b.v.Newest.String()
			l.Newest = &newest
		}
		list = append(list, l)
	}
	out, err := json.MarshalIndent(struct {
		Garage string        `json:"garage"`
		Builds []listedBuild `json:"builds"`
	}{s.Name, list}, "", "  ")
	return append(out, '\n'), err
}

// sitemap lists the pages of all builds: a host may well be told of no other.
func (s *garageSite) sitemap() ([]place.File, error) {
	list := []siteURL{{Loc: s.reference("index.html")}}
	for _, b := range s.builds {
		list = append(list, siteURLs(b.site)...)
	}
	return sitemapFiles(list, s.reference)
}
