package render

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render/place"
)

func TestZZDump(t *testing.T) {
	dir := os.Getenv("DUMP")
	if dir == "" {
		t.Skip()
	}
	put := func(name string, files []place.File) {
		for _, f := range files {
			if strings.HasPrefix(f.Path, "pictures/") || f.Path == "style.css" && strings.Contains(name, "lacquer") {
				continue
			}
			at := filepath.Join(dir, strings.NewReplacer(" ", "_", ",", "", "'", "").Replace(name), f.Path)
			os.MkdirAll(filepath.Dir(at), 0o755)
			if err := os.WriteFile(at, []byte(strings.ReplaceAll(string(f.Data), "&#43;", "+")), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	for name, files := range exampleSites(t) {
		put("example "+name, files)
	}
	for _, to := range view.Audiences {
		for _, asOf := range []measure.Date{0, measure.NewDate(2026, 4, 1)} {
			put("small "+string(to)+asOf.String(), siteOf(t, os.DirFS("testdata/sites/small/in"), to, asOf))
		}
		put("hostile "+string(to), siteOf(t, hostileBuild(t), to, 0))
		put("many "+string(to), siteOf(t, manyNotes(40), to, 0))
		for at, data := range placed(t, example(), to, "https://example.org/hal den/é") {
			put("placed "+string(to), []place.File{{Path: at, Data: data}})
		}
		g, o, _ := leanTo(t, to, "https://example.org/g")
		files, err := allOf(GarageSite(g, o))
		if err != nil {
			t.Fatal(err)
		}
		put("leanto "+string(to), files)
	}
	for _, o := range onlookers() {
		put("secret "+o.name, secretSite(t, secretBuild(o.public), o, theme(t)))
	}
	fsys := longBuild(700)
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	now := state.At(b, 0, today)
	put("long workshop", siteOfView(t, fsys, b, view.Of(now, view.ForWorkshop)))
	put("long pack", siteOfView(t, fsys, b, view.BuyersPack(now, now.ToSell(nil), now.ToDrive(nil))))
}
