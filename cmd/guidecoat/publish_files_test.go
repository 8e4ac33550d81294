package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"guidecoat/themes"
)

func day() time.Time { return time.Date(2026, 7, 1, 12, 0, 0, 0, time.UTC) }

// tryPublish publishes for somebody and returns how it ended, what it said and every
// byte of what was written, names too.
func tryPublish(t *testing.T, dir, audience string) (code int, said, site string) {
	t.Helper()
	var out, errs bytes.Buffer
	to := filepath.Join(t.TempDir(), "site")
	code = run(context.Background(), world{[]string{"publish", dir, "--for", audience, "--to", to}, bytes.NewReader(nil), &out, &errs, func(string) string { return "" }, day, ""})
	if code != exitDone {
		if found, _ := filepath.Glob(filepath.Join(filepath.Dir(to), "*")); found != nil {
			t.Errorf("%s: exit %d, but %s is there", audience, code, found)
		}
		return code, errs.String(), ""
	}
	var all strings.Builder
	for name, data := range filesIn(t, to) {
		all.WriteString(name + "\n" + data)
	}
	return code, errs.String(), all.String()
}

// Ways to name a file, with % for it, and who is then shown it.
var namings = []struct{ note, who string }{
	{"![p](%)\n", "public buyer workshop"}, {"[p](%)\n", "public buyer workshop"}, {"[p][r]\n\n[r]: %\n", "public buyer workshop"}, {"> - [p](%#page=2)\n", "public buyer workshop"},
	{"- [ ] job sill-rust: sill; photo %\n", "public buyer workshop"}, {"- [ ] job sill-rust: sill [p](%)\n", "public buyer workshop"},
	{"---\nparts:\n  sill: needed sill; photo %\n---\n", "public buyer workshop"},
	{"---\ncost: 12.00 sill; receipt %\n---\n", "buyer workshop"}, {"---\nchecks:\n  alignment: done; photo %\n---\n", "buyer workshop"}, {"---\nchecks:\n  alignment: done; receipt %\n---\n", "buyer workshop"},
	{"---\nprivate: yes\n---\n![p](%)\n", "workshop"}, {"---\ncost: 12.00 sill; receipt %; private\n---\n", "workshop"}, {"- [ ] job sill-rust: sill; photo %; private\n", "workshop"},
	{"- [ ] job sill-rust: sill [p](%); private\n", "workshop"}, {"<!-- ![p](%) -->\n", ""}, {"`![p](%)`\n", ""},
}

// No byte of a file that is not on the list is ever published, and whoever would be
// shown it is told so instead of finding a gap. What is on the list goes to those alone.
func TestOnlyTheAllowedIsPublished(t *testing.T) {
	picture := string(greyPicture(t, 20, 10, 9)) + "zqsecret"
	files := map[string]struct{ data, become string }{
		"a.jpg": {picture, "made"}, "b.png": {picture, "made"}, "c.html": {picture, "made"}, "d": {picture, "made"},
		"a.pdf": {"%PDF-1.7 zqsecret", "copied"}, "a.TXT": {"a zqsecret", "copied"}, "a.csv": {"a,zqsecret", "copied"}, "a.gpx": {"<gpx>zqsecret</gpx>", "copied"},
		"page.txt": {" <html>zqsecret", ""}, "page.pdf": {"<script>zqsecret", ""}, "raw.jpg": {"II*\x00zqsecret", ""}, "e": {"zqsecret", ""}, "wide.csv": {"\xff\xfezqsecret", ""}, "page.gpx": {"<svg>zqsecret</svg>", ""},
	}
	for _, ending := range strings.Fields("RAF RW2 orf MTS mpg wmv ts qt jxl jp2 psd svg html xhtml xml js zip md~ bak markdown MD tif mp4 webm docx 7z gpx2") {
		files["x."+ending] = struct{ data, become string }{"zqsecret", ""}
	}
	for name, f := range files {
		for i, way := range namings {
			if i > 1 && !strings.Contains("a.jpg a.pdf x.RAF page.txt", name) {
				continue // the ways are the same for all
			}
			dir := t.TempDir()
			p := &previewed{t: t, dir: dir}
			p.write("build.md", "---\nbuild: Halden\ncurrency: GBP\npublic:\n  money: lines\n---\n")
			p.write("2026-04-11.md", strings.ReplaceAll(way.note, "%", name))
			p.write(name, f.data)
			for _, who := range []string{"public", "buyer", "workshop"} {
				code, said, site := tryPublish(t, dir, who)
				told := fmt.Sprintf("%s, %q, for %s: exit %d\n%s", name, way.note, who, code, said)
				shown, named := strings.Contains(way.who, who), strings.Contains(said, "2026-04-11.md:") && strings.Contains(said, `"`+name+`"`)
				switch wrong := shown && f.become == ""; {
				case wrong != (code == exitProblems), wrong != strings.Contains(said, "error, bad-picture"), wrong && !named:
					t.Error("refusing: " + told)
				case strings.Contains(site, "zqsecret") != (shown && f.become == "copied"):
					t.Error("copying: " + told)
				case strings.Contains(said, "kept-in-file") != (shown && f.become == "copied" && who != "workshop"):
					t.Error("warning: " + told)
				case strings.Contains(site, "pictures/") != (shown && f.become == "made"):
					t.Error("picture: " + told)
				}
			}
		}
	}
}

// An audience that the table lacks has no folder, and is refused wherever it is to go.
func TestUnknownAudienceIsRefused(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "build.md"), []byte("---\nbuild: b\ncurrency: GBP\n---\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, to := range []string{"", filepath.Join(dir, "out")} {
		var said bytes.Buffer
		w := &world{nil, bytes.NewReader(nil), &said, &said, func(string) string { return "" }, day, ""}
		p, err := w.load(dir, 0)
		if err != nil {
			t.Fatal(err)
		}
		err = w.publish(p, publishing{audience: "somebody", theme: themes.Default, to: to}, nil, nil)
		var wrong *exit
		if !errors.As(err, &wrong) || wrong.code != exitUsage {
			t.Errorf("to %q: %v", to, err)
		}
		if list, err := os.ReadDir(dir); err != nil || len(list) != 1 {
			t.Errorf("to %q: %v %v", to, list, err)
		}
	}
}
