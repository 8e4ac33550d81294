package render

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"guidecoat/journal"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render/place"
)

const base = "https://halden.example/cars/"

// placed is the site of a build where it is known where it will stand.
func placed(t testing.TB, fsys fs.FS, to view.Audience, base string) map[string][]byte {
	t.Helper()
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	files, err := allOf(Site(view.Of(state.At(b, 0, today), to), Options{Theme: theme(t), BaseURL: base, Store: pictures,
		Read: func(p string) ([]byte, error) { return fs.ReadFile(fsys, p) }}))
	if err != nil {
		t.Fatal(err)
	}
	return byPath(files)
}

func byPath(files []place.File) map[string][]byte {
	m := map[string][]byte{}
	for _, f := range files {
		m[f.Path] = f.Data
	}
	return m
}

// withoutMachines leaves out what is made for programs.
func withoutMachines(files []place.File) []place.File {
	return slices.DeleteFunc(slices.Clone(files), func(f place.File) bool {
		return slices.ContainsFunc(machines, func(m machine[*site]) bool { return m.path == f.Path })
	})
}

// An element is any element of an XML file, read by nobody's types.
type element struct {
	XMLName  xml.Name
	Attrs    []xml.Attr `xml:",any,attr"`
	Text     string     `xml:",chardata"`
	Children []element  `xml:",any"`
}

func (e element) all(name string) []element {
	return slices.DeleteFunc(slices.Clone(e.Children), func(c element) bool { return c.XMLName.Local != name })
}

func (e element) attr(name string) string {
	for _, a := range e.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func readXML(t *testing.T, data []byte, space, root string) element {
	t.Helper()
	var e element
	d := xml.NewDecoder(bytes.NewReader(data))
	d.Strict = true
	if err := d.Decode(&e); err != nil {
		t.Fatalf("%v in\n%s", err, data)
	}
	if e.XMLName.Local != root || e.XMLName.Space != space {
		t.Fatalf("it is a %v", e.XMLName)
	}
	return e
}

// The sitemap names every page once, by its whole address, for the public alone.
func TestSitemap(t *testing.T) {
	for _, to := range view.Audiences() {
		for _, base := range []string{"", base, "https://halden.example", "https://halden.example/"} {
			files := placed(t, example(), to, base)
			there := to == view.ForPublic && base != ""
			if (files["sitemap.xml"] != nil) != there {
				t.Errorf("%s at %q: there is a sitemap: %v", to, base, !there)
			}
			robots := there && !strings.Contains(base, "cars")
			if (files["robots.txt"] != nil) != robots || robots && !strings.Contains(string(files["robots.txt"]), "\nSitemap: https://halden.example/sitemap.xml\n") {
				t.Errorf("%s at %q: robots.txt is %q", to, base, files["robots.txt"])
			}
			if !there {
				continue
			}
			base = strings.TrimSuffix(base, "/") + "/"
			pages := map[string]bool{}
			for p := range files {
				if strings.HasSuffix(p, ".html") {
					pages[base+strings.TrimSuffix(p, "index.html")] = true
				}
			}
			for _, u := range readXML(t, files["sitemap.xml"], "http://www.sitemaps.org/schemas/sitemap/0.9", "urlset").all("url") {
				loc := u.all("loc")[0].Text
				if !pages[loc] {
					t.Errorf("%s is no page, or is there twice", loc)
				}
				delete(pages, loc)
			}
			if len(pages) > 0 {
				t.Errorf("it does not name %v", pages)
			}
		}
	}
}

// The protocol of sitemaps.org allows 50,000 addresses in a file.
func TestLargeSitemap(t *testing.T) {
	list := make([]siteURL, 100_001)
	for i := range list {
		list[i].Loc = fmt.Sprint(base, i)
	}
	files, err := sitemapFiles(list, func(at string) string { return base + at })
	if err != nil || len(files) != 4 || files[0].Path != "sitemap.xml" {
		t.Fatalf("%d files, %v", len(files), err)
	}
	var sizes []int
	for i, m := range readXML(t, files[0].Data, "http://www.sitemaps.org/schemas/sitemap/0.9", "sitemapindex").all("sitemap") {
		if m.all("loc")[0].Text != base+files[i+1].Path {
			t.Errorf("%v", m)
		}
		sizes = append(sizes, len(readXML(t, files[i+1].Data, "http://www.sitemaps.org/schemas/sitemap/0.9", "urlset").all("url")))
	}
	if fmt.Sprint(sizes) != "[50000 50000 1]" {
		t.Errorf("%v", sizes)
	}
}

// The CSV holds the lines the audience sees, and no others; without any it is not made.
func TestCostsCSV(t *testing.T) {
	for _, to := range view.Audiences() {
		b, err := journal.ReadBuild(example(), ".")
		if err != nil {
			t.Fatal(err)
		}
		v, data := view.Of(state.At(b, 0, today), to), placed(t, example(), to, "")["costs.csv"]
		if to == view.ForPublic { // the example shows totals alone
			if data != nil {
				t.Error("the public gets lines that no page shows")
			}
			continue
		}
		rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
		if err != nil || len(rows) != len(v.Money.Lines)+1 || len(rows) < 100 || rows[0][0] != "date" {
			t.Fatalf("%s: %d rows for %d lines, %v", to, len(rows), len(v.Money.Lines), err)
		}
		sum := decimal.Zero
		for i, r := range rows[1:] {
			amount := decimal.RequireFromString(r[9])
			if r[5] == "credit" {
				amount = amount.Neg()
			}
			sum = sum.Add(amount)
			if r[7] != v.Money.Lines[i].Part || to == view.ForBuyer && (r[4] == "vehicle" || r[4] == "fees") {
				t.Errorf("%s: row %v", to, r)
			}
		}
		if !sum.Equal(v.Money.Costs.Net.Sub(v.Money.NotListed())) {
			t.Errorf("%s: the rows come to %s", to, sum)
		}
	}
}

// build.json tells what the view tells.
func TestBuildJSON(t *testing.T) {
	for _, to := range view.Audiences() {
		b, err := journal.ReadBuild(example(), ".")
		if err != nil {
			t.Fatal(err)
		}
		v, files := view.Of(state.At(b, 0, today), to), placed(t, example(), to, "")
		var got struct {
			Build, Audience          string
			Currency, Newest, Sold   *string
			AsOf                     *string `json:"as_of"`
			Odometer                 *string
			Ready, Vehicle, Withheld any
			Minutes                  *int
			Snags, Parts             []any
			Sessions                 []struct {
				Session string
				Page    *string
			}
			Costs *struct {
				Whole          bool
				Net            string
				Forecast, Sold any
				Stages         []struct{ Budget any }
			}
		}
		d := json.NewDecoder(bytes.NewReader(files["build.json"]))
		if err := d.Decode(&got); err != nil {
			t.Fatal(err)
		}
		if got.Build != v.Name || got.Audience != string(to) || len(got.Sessions) != len(v.Sessions) || len(got.Snags) != len(v.Snags) || len(got.Parts) != len(v.Parts) {
			t.Errorf("%s: it holds %d sessions, %d snags, %d parts", to, len(got.Sessions), len(got.Snags), len(got.Parts))
		}
		if got.Costs == nil || got.Costs.Whole != (to != view.ForBuyer) || got.Costs.Net != v.Money.Costs.Net.StringFixed(2) || *got.Minutes != int(v.Minutes) {
			t.Errorf("%s: the costs are %+v", to, got.Costs)
		}
		if to == view.ForBuyer && (got.Costs.Forecast != nil || got.Costs.Sold != nil || got.Costs.Stages[1].Budget != nil) {
			t.Errorf("the buyer reads %+v", got.Costs)
		}
		for _, s := range got.Sessions {
			if s.Page == nil || files[*s.Page] == nil {
				t.Errorf("%s: there is no page of %q", to, s.Session)
			}
		}
	}
}

func TestCheckBaseURL(t *testing.T) {
	for base, ok := range map[string]bool{
		"https://a.example": true, "http://a.example/b/": true, "https://a.example:8443/ü": true,
		"a.example": false, "": false, "/cars": false, "ftp://a.example": false, "https://": false, "https://a.example/?x": false, "https://a.example/#x": false,
		"https://me@a.example/": false, "javascript:alert(1)": false, "https://a b/": false,
	} {
		if err := CheckBaseURL(base); (err == nil) != ok {
			t.Errorf("%q: %v", base, err)
		}
	}
}
