package render

import (
	"fmt"
	"path"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render/place"
)

// pageLimit is how large a page may be, however many notes there are.
const pageLimit = 300_000

// longBuild is a build of so many sessions over many years in which every list is long.
func longBuild(n int) fstest.MapFS {
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: long\ncurrency: GBP\nresale: 90000\nstages:\n  body: budget 900; system body\n  brakes: budget 900; system brakes\n" +
		"public:\n  money: lines\n  suppliers: yes\n---\nA build.\n")}}
	d := measure.NewDate(2008, 1, 1)
	for i := range n {
		text := fmt.Sprintf("---\ntitle: Evening %[1]d, behind the left front wing\nstage: %[2]s\nodometer: %[4]d km\ntime: 3h40 hubs out\ncost:\n"+
			"  - 1.50 grease of the sort that stands heat; as consumables; from Tidewell Dismantlers\n  - 2.50 filler; as paint; from Shop number %[3]d\n  - 8.00 a hub seal, left; for part-%[1]d\n"+
			"credit: 1.00 core; for part-%[1]d; as refund\n"+
			"parts:\n  part-%[1]d: %[5]s a hub seal of the wider pattern, left; new\nchecks:\n  tow-test: passed with a lamp board\n"+
			"readings:\n  disc-left: 8.%[6]d mm; min 8.0 mm\n  tyre-%[1]d: 4 mm; min 3 mm\n---\n# Evening %[1]d\nThe left bolt sheared.\n\n```scan abs\nC0035 left front wheel speed\nU0121 no bus\n```\n\n"+
			"- [ ] temporary wire-%[1]d: hung on wire until the rubber comes\n- [ ] look at the pipe above the tank\n",
			i, []string{"body", "brakes"}[i%2], i%701, 90000+i, []string{"fitted", "needed", "arrived", "returned"}[i%4], i%10)
		if i > 0 && i%3 > 0 {
			text += fmt.Sprintf("- [x] wire-%d: off\n", i-1)
		}
		fsys[fmt.Sprintf("%s-%05d.md", d.AddDays(i*3), i)] = &fstest.MapFile{Data: []byte(text)}
	}
	return fsys
}

// However long a build grows, no page does, and no link is lost.
func TestLongBuild(t *testing.T) {
	const n = 1302
	fsys := longBuild(n)
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	now := state.At(b, 0, today)
	views := map[string]*view.View{"workshop": view.Of(now, view.ForWorkshop), "public": view.Of(now, view.ForPublic), "pack": view.ForHandover(now, view.ForBuyer, nil)}
	for to, v := range views {
		files := siteOfView(t, fsys, b, v)
		volumes := map[string]int{}
		for _, f := range files {
			if !isPage(f) {
				continue
			}
			if len(f.Data) > pageLimit {
				t.Errorf("%s: %s has %d bytes", to, f.Path, len(f.Data))
			}
			if strings.Contains(string(f.Data), `class="volumes"`) {
				list := f.Path
				if dir := path.Dir(list); dir != "." {
					list = dir
				}
				volumes[strings.TrimSuffix(list, ".html")]++
			}
		}
		for _, list := range []string{"sessions", "snags", "money", "parts", "measured"} {
			if volumes[list] < 3 {
				t.Errorf("%s: %s has %d pages", to, list, volumes[list])
			}
		}
		if to == "pack" {
			if volumes["pack"] < 8 {
				t.Errorf("the pack has %d pages", volumes["pack"])
			}
			_, rest, _ := strings.Cut(text(t, files, "pack.html"), `<h2 id="_h-requirements">`)
			stops, _, _ := strings.Cut(rest, "</section>")
			if n := strings.Count(stops, "<li>"); n < 50 || n > 7*51 || !strings.Contains(stops, "more</li>") {
				t.Errorf("the first page of the pack lists %d stops", n)
			}
		}
		if to == "workshop" {
			if volumes["notes"] < 3 {
				t.Errorf("notes has %d pages", volumes["notes"])
			}
			everyEntry(t, files, n)
		}
		for _, complaint := range brokenLinks(t, files) {
			t.Errorf("%s: %s", to, complaint)
		}
	}
}

// everyEntry complains where something is lost or told twice when lists are bound in volumes.
func everyEntry(t *testing.T, files []place.File, n int) {
	t.Helper()
	for in, want := range map[string]int{`<tr id="line-`: 4 * n, `class="part" id="part-`: n, `<li class="check">`: n, `<b class="value`: 3 * n, `<li class="item`: 2*n + 2 /* fault codes */} {
		got := 0
		for _, f := range files {
			if folder := path.Dir(f.Path); isPage(f) && folder != "sessions" && folder != "notes" {
				got += strings.Count(string(f.Data), in)
			}
		}
		if got != want {
			t.Errorf("%s: %d, want %d", in, got, want)
		}
	}
}

// The navigation of every page names few extra pages, and leads to all.
func TestManyPages(t *testing.T) {
	for _, n := range []int{mostPages, volumeWeight + 1} {
		fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: long\ncurrency: GBP\n---\nA build.\n")}}
		for i := range n {
			fsys[fmt.Sprintf("page-%d.md", i)] = &fstest.MapFile{Data: []byte("---\npage: How it was\n---\nWords.\n")}
		}
		b, err := journal.ReadBuild(fsys, ".")
		if err != nil {
			t.Fatal(err)
		}
		files := siteOfView(t, fsys, b, view.Of(state.At(b, 0, today), view.ForPublic))
		led := map[string]bool{}
		for _, f := range files {
			if !isPage(f) {
				continue
			}
			if got := strings.Count(string(f.Data), "How it was"); path.Dir(f.Path) == "pages" && f.Path != pagesFront && !strings.HasPrefix(f.Path, "pages/page") && got > mostPages+6 {
				t.Errorf("of %d pages %s names %d", n, f.Path, got)
			}
			for _, to := range hrefs(string(f.Data)) {
				led[path.Join(path.Dir(f.Path), to)] = true
			}
		}
		for _, f := range files {
			if isPage(f) && !led[f.Path] {
				t.Errorf("of %d pages nothing leads to %s", n, f.Path)
			}
		}
		if all := led[pagesFront]; all != (n > mostPages) {
			t.Errorf("of %d pages: whether a page leads to all is %v", n, all)
		}
		for _, complaint := range brokenLinks(t, files) {
			t.Errorf("of %d pages: %s", n, complaint)
		}
	}
}

func hrefs(page string) (list []string) {
	for _, rest := range strings.Split(page, `href="`)[1:] {
		to, _, _ := strings.Cut(rest, `"`)
		list = append(list, to)
	}
	return list
}

func TestVolumes(t *testing.T) {
	list := func(shelves string) []entry {
		var l []entry
		for i, r := range shelves {
			l = append(l, entry{shelf: string(r), name: "of " + string(r), weight: volumeWeight / 3, anchors: []string{fmt.Sprint(i), "_" + string(r)}})
		}
		return l
	}
	for _, c := range []struct {
		how     binding
		shelves string
		want    string
	}{
		{binding{front: "a.html"}, "", "a.html(,0-0)"},
		{binding{front: "a.html"}, "xyz", "a.html(,0-3)"},
		{binding{front: "a.html"}, "xyzz", "a.html(of x,0-1) a/y.html(of y,1-2) a/z.html(of z,2-4)"},
		{binding{front: "a.html"}, "xxxxz", "a.html(of x 1,0-3) a/x-2.html(of x 2,3-4) a/z.html(of z,4-5)"},
		{binding{front: "a/index.html", newest: true}, "xxxxz", "a/x.html(of x 1,0-3) a/x-2.html(of x 2,3-4) a/index.html(of z,4-5)"},
		{binding{front: "a.html", cover: "Sums"}, "xxxz", "a.html(Sums,0-0) a/x.html(of x,0-3) a/z.html(of z,3-4)"},
		{binding{front: "a.html", cover: "Sums"}, "xz", "a.html(,0-2)"},
	} {
		c.how.taken = map[string]int{}
		b := c.how.bind(list(c.shelves))
		var got []string
		for _, v := range b.volumes {
			name := v.name
			if v.nth > 0 {
				name += fmt.Sprint(" ", v.nth)
			}
			got = append(got, fmt.Sprintf("%s(%s,%d-%d)", v.path, name, v.from, v.to))
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("%s: %s, want %s", c.shelves, s, c.want)
		}
	}
}
