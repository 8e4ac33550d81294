package render

import (
	"fmt"
	"io/fs"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"guidecoat/journal/view"
)

// What RFC 4287 asks of a feed: §4.1.1 of the feed, §4.1.2 of an entry, §3.3 of
// dates, §4.2.6 of ids, §4.2.7 of links.
func TestFeedIsAtom(t *testing.T) {
	for _, base := range []string{"", base} {
		for name, fsys := range map[string]fs.FS{"example": example(), "hostile": hostileBuild(t)} {
			files := placed(t, fsys, view.ForPublic, base)
			feed := readXML(t, files["feed.xml"], "http://www.w3.org/2005/Atom", "feed")
			complain := func(format string, args ...any) { t.Errorf("%s at %q: %s", name, base, fmt.Sprintf(format, args...)) }
			exactlyOne := func(e element, names ...string) {
				for _, n := range names {
					if found := e.all(n); len(found) != 1 || strings.TrimSpace(found[0].Text) == "" {
						complain("<%s> has %d of <%s>, or an empty one", e.XMLName.Local, len(found), n)
					}
				}
			}
			exactlyOne(feed, "id", "title", "updated", "generator")
			if authors := feed.all("author"); len(authors) != 1 || len(authors[0].all("name")) != 1 || authors[0].all("name")[0].Text == "" {
				complain("authors %v", authors)
			}
			links := map[string]string{}
			for _, l := range feed.all("link") {
				links[l.attr("rel")] = l.attr("href")
			}
			if links["self"] != base+"feed.xml" || links["alternate"] != strings.TrimSuffix(base+"index.html", map[bool]string{true: "index.html"}[base != ""]) {
				complain("links %v", links)
			}
			ids := map[string]bool{}
			last := "9999"
			for i, e := range append([]element{feed}, feed.all("entry")...) {
				id, updated := e.all("id")[0].Text, e.all("updated")[0].Text
				if u, err := url.Parse(id); err != nil || !u.IsAbs() || ids[id] {
					complain("the id %q is not one, or is there twice", id)
				}
				ids[id] = true
				if _, err := time.Parse(time.RFC3339, updated); err != nil {
					complain("updated: %v", err)
				}
				if i == 0 {
					continue
				}
				exactlyOne(e, "id", "title", "updated", "summary")
				if updated > last {
					complain("an entry of %s after one of %s", updated, last)
				}
				last = updated
				link := e.all("link")
				if len(link) != 1 || link[0].attr("rel") != "alternate" || files[strings.TrimPrefix(link[0].attr("href"), base)] == nil {
					complain("it leads to %v", link)
				}
			}
			if len(ids) < 3 {
				complain("%d ids", len(ids))
			}
		}
	}
}

// An id stays that of its session, whatever else changes, and is a UUID of version 5.
func TestFeedIDsStay(t *testing.T) {
	ids := func(notes ...string) []string {
		fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: b\ncurrency: GBP\n---\n")}}
		for _, n := range notes {
			fsys[n] = &fstest.MapFile{Data: []byte("words of " + n)}
		}
		var list []string
		for _, e := range readXML(t, placed(t, fsys, view.ForPublic, "")["feed.xml"], "http://www.w3.org/2005/Atom", "feed").all("entry") {
			list = append(list, e.all("id")[0].Text)
		}
		return list
	}
	one, two := ids("2026-04-02.md"), ids("2026-04-01.md", "2026-04-02.md")
	if one[0] != two[0] || one[0] == two[1] {
		t.Errorf("%v, then %v", one, two)
	}
	if !regexp.MustCompile(`^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$`).MatchString(one[0]) {
		t.Errorf("%s is no UUID by name", one[0])
	}
	var many []string
	for i := range 120 {
		many = append(many, fmt.Sprintf("2026-01-01-%04d.md", i))
	}
	if n := len(ids(many...)); n != 100 /* what the manual says */ {
		t.Errorf("%d entries", n)
	}
}

// The feed's subtitle is the card's own words, cut to what readers show.
func TestFeedSubtitle(t *testing.T) {
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: x\ncurrency: GBP\n---\n" + strings.Repeat("A van. ", 60))}, "2026-01-01.md": {Data: []byte("Words.\n")}}
	subtitle := readXML(t, placed(t, fsys, view.ForPublic, "")["feed.xml"], "http://www.w3.org/2005/Atom", "feed").all("subtitle")[0].Text
	if n := len([]rune(subtitle)); n > 161 || n < 100 || !strings.HasPrefix(subtitle, "A van. A van.") {
		t.Errorf("%d letters: %s", n, subtitle)
	}
}
