package render

import (
	"html"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render/place"
	"guidecoat/themes"
)

// The secrets: a word or a figure of its own in every field that somebody may not
// see, searched for in every byte of every file. Words begin with zq, which nothing
// else does; figures stand nowhere else and add up to none of each other.

const secretCard = `---
build: Halden
vehicle:
  make: zqmake
  VIN: 0H8GDM9A8KP042788
  registration: zqplate
  contact: zqcontact
currency: GBP
resale: 60431 60432 60433
profit: 60811
confidence: 93%
fees:
  zqfeename: 61616
hourly: 71.93
holding:
  zqholding: 83.51 a week zqholdwords
weeks: 37.71 41.73 43.79
pace: 9h37 a week zqpacewords
away: 2031-03-03..2031-03-04
offers:
  zqoffername: 60747 zqofferwords; from zqofferer; until 2031-05-05; hours 57.37
stages:
  buying: budget 51013 51014 51015; purchase
  axle: zqstagewords; budget 52023 52024 52025; system suspension
  paint: colour
donors:
  lark-17: 4127.29 zqdonorwords; category N; worth 1313.57; on 2026-01-13; from zqdonorseller; receipt zqdonorreceipt
damage:
  zqplace: zqdamage; system body
fasteners:
  hub-pin: 60 Nm zqpinwords; of hub
papers:
  zqinsurance: zqcardpaper; until 2027-03-09; road no
public:
PUBLIC
---
zqabout <!-- zqcommentcard -->

![it](photos/shown.jpg) ![too](photos/shown.png)

[papers](papers/zqpapersfile.txt)

<!--
zqcommentblock
-->
`

const secretSession = `---
title: zqtitle
stage: axle
odometer: 91000 km
time:
  - 5h zqtime
  - 77m zqtimeprivate; private
cost:
  - 7341.17 zqvehicleline; as vehicle; from zqcarsupplier; receipt receipts/zqcarreceipt.txt
  - 195.31 zqfeeline; as fees; from zqauction
  - 33.33 zqline; from zqsupplier; receipt receipts/zqreceipt.txt; for hub
  - 22.26 zqlineprivate; private; from zqsupplierprivate; receipt receipts/zqreceiptprivate.txt; for hub
  - 66.74 zqpartline; for hidden-part; surcharge 20.08
  - 1.13 zqlinemore; from zqsupplier
  - 2.38 zqlinepaint; stage paint
credit:
  - 4.47 zqcredit; from zqpayer
  - 5.59 zqcreditprivate; private; from zqpayerprivate
papers:
  zqpermit: zqpaperwords; until 2026-06-12; road yes
parts:
  - hub: needed zqpart; estimate 41013 42024 43035; from zqpartsupplier; number zqnumber
  - hub: fitted zqpartremarkprivate; private
  - lamp: arrived lamp; donor lark-17; worth 888.83
  - hidden-part: needed zqpartprivate; private; number zqnumberprivate; donor zqdonorprivate; photo photos/zqpartphoto.jpg; estimate 45059
  - horn: needed zqhornwords
quotes:
  horn: 521.17 zqquotewords; from zqquoter; freight 277.19; duty 3%; wait 397d; until 2027-02-07
checks:
  lamp-aim: done zqcheck; by zqinspector; receipt receipts/zqcheckreceipt.txt
  brake-feel: failed zqcheckprivate; private; by zqinspectorprivate; photo photos/zqcheckphoto.jpg
inspection: passed zqinspectwords; by zqinspectby; receipt receipts/zqinspectreceipt.txt; photo photos/zqinspectphoto.jpg
found:
  zqfound-thing: advisory zqfoundwords
fasteners:
  - wheel-pin: 91 Nm zqtightwords; by zqtightby
  - wheel-pin: 92.17 Nm zqtightprivate; private; by zqtightprivateby
readings:
  disc-left: 8.8 mm zqreading; min 8 mm
  disc-right: 9.92 mm zqreadingprivate; private; max 9.07 mm
remaining:
  paint: 53530 53531 53532 zqremaining; hours 71 72 73
---
# zqheading

zqwords <!-- zqcommentinline --> [a note](private.md)

- [ ] job zqsnag-a: zqsnagwords; waits for zqhidden-a
- [ ] job zqhidden-a: zqsnagprivate ![p](photos/zqsnagphoto.png); major; private
- [ ] job said-a: zqsaid; dangerous
- [ ] job noted-a: words <!-- zqcommentitem; and more --> after
`

const secretLater = `---
stage: axle
---
- [ ] said-a: zqremarkprivate; private
- [x] zqhidden-a: zqclearedprivate
- [ ] again zqhidden-a: zqagainprivate
`

const secretPrivate = `---
private: yes
title: zqprivatetitle
stage: paint
odometer: 987654 km
time: 2h zqprivatetime
cost:
  - 111.19 zqprivateline; from zqprivatesupplier; receipt receipts/zqprivatereceipt.txt
parts:
  zqprivate-part: needed zqprivatepart
checks:
  s-check: failed zqprivatecheck; by zqprivateinspector
readings:
  s-reading: 9.93 mm zqprivatereading; max 9.08 mm
---
# zqprivateheading

zqprivatewords ![p](photos/zqprivatephoto.jpg)

- [ ] job zqprivate-snag: zqprivatesnag; dangerous
- [ ] said-a: zqprivateremark

~~~scan zqprivateunit
C0999 zqprivatecode
~~~
`

const secretSale = `---
sale:
  - deposit 717.61 zqkeptwords; on 2026-05-02; from zqfirstbuyer
  - kept 717.61 zqkeptwords; on 2026-05-04
  - asked 9933.71 zqaskedwords
  - floor 9411.53 zqfloorwords
  - deposit 613.37 zqdepositwords; from zqdepositor
  - part exchange 1717.19 zqexchangewords; into zqinto
  - claim 81.47 zqclaimwords
sold: 9871.23 zqsoldwords; to zqbuyer
---
Gone.
`

func secretBuild(public string) fstest.MapFS {
	fsys := fstest.MapFS{}
	for name, text := range map[string]string{
		"build.md": strings.Replace(secretCard, "PUBLIC", public, 1), "2026-04-02.md": secretSession, "2026-04-03.md": secretLater,
		"2026-06-08 zqprivatefile.md": secretPrivate, "2026-06-20.md": secretSale,
		"page.md": "---\npage: zqpage\n---\nzqpagewords <!-- zqcommentpage -->\n", "private.md": "---\npage: zqpageprivate\nprivate: yes\n---\nzqpageprivatewords [l](papers/zqpagefile.txt)\n",
		"papers/zqpapersfile.txt": "zqpaperscontent", "papers/zqpagefile.txt": "zqpagefilecontent", "zqunreferenced.txt": "zqunreferencedcontent",
		"receipts/zqcarreceipt.txt": "zqcarreceiptcontent", "receipts/zqreceipt.txt": "zqreceiptcontent", "receipts/zqreceiptprivate.txt": "zqreceiptprivatecontent",
		"receipts/zqcheckreceipt.txt": "zqcheckreceiptcontent", "receipts/zqprivatereceipt.txt": "zqprivatereceiptcontent", "receipts/zqinspectreceipt.txt": "zqinspectreceiptcontent",
	} {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	for i, name := range []string{"shown.jpg", "shown.png", "zqpartphoto.jpg", "zqcheckphoto.jpg", "zqsnagphoto.png", "zqprivatephoto.jpg", "zqinspectphoto.jpg", "zqunreferenced.png"} {
		fsys["photos/"+name] = &fstest.MapFile{Data: tellingPicture(strings.HasSuffix(name, ".jpg"), uint8(20*i))}
	}
	return fsys
}

// An onlooker is an audience with the settings of `public` that hold for it.
type onlooker struct {
	name, public                    string
	to                              view.Audience
	money                           string
	hours, snags, suppliers, number bool // those of the public
	pack                            bool // the buyer's site is his pack
}

func onlookers() []onlooker {
	list := []onlooker{{name: "workshop", to: view.ForWorkshop, public: "  money: nothing"}, {name: "buyer", to: view.ForBuyer, public: "  money: lines\n  snags: no"},
		{name: "buyer's pack", to: view.ForBuyer, public: "  money: lines\n  snags: no", pack: true}}
	for _, money := range []string{"nothing", "work", "totals", "lines"} {
		list = append(list,
			onlooker{"public " + money, "  money: " + money, view.ForPublic, money, true, true, false, false, false},
			onlooker{"public " + money + ", all else shown", "  money: " + money + "\n  suppliers: yes\n  vin: full\n  registration: yes", view.ForPublic, money, true, true, true, true, false},
			onlooker{"public " + money + ", nothing else shown", "  money: " + money + "\n  hours: no\n  snags: no\n  vin: no", view.ForPublic, money, false, false, false, false, false})
	}
	return list
}

func (o onlooker) workshop() bool { return o.to == view.ForWorkshop }
func (o onlooker) isPublic() bool { return o.to == view.ForPublic }
func (o onlooker) whole() bool    { return o.workshop() || o.money == "totals" || o.money == "lines" }
func (o onlooker) lines() bool    { return !o.isPublic() || o.money == "lines" }

// hidden lists what the onlooker may not see, by the manual's table of audiences.
func (o onlooker) hidden() []string {
	var list []string
	unless := func(seen bool, secrets string) {
		if !seen {
			list = append(list, strings.Fields(secrets)...)
		}
	}
	public := o.isPublic()
	unless(false, "zqmetadata zqunreferenced zqcomment") // in pictures, in files that nothing shows, and in comments
	unless(o.workshop(), "zqtimeprivate zqlineprivate 22.26 zqsupplierprivate zqreceiptprivate zqcreditprivate 5.59 zqpayerprivate "+
		"zqpartremarkprivate zqpartprivate hidden-part zqnumberprivate zqdonorprivate 45059 45,059 zqpartphoto zqcheckprivate brake-feel zqinspectorprivate zqcheckphoto "+
		"zqtightprivate 92.17 zqreadingprivate disc-right 9.92 9.07 zqhidden-a zqsnagprivate zqsnagphoto zqremarkprivate zqclearedprivate zqagainprivate "+
		"zqprivate 2026-06-08 987654 987,654 111.19 9.93 9.08 C0999 s-check s-reading zqpageprivate zqpagefile zqbuyer zqremaining zqkeptwords zqfirstbuyer 717.61 zqaskedwords 9411.53 9,411.53 zqfloorwords zqdepositwords zqdepositor zqexchangewords zqinto zqclaimwords 81.47 zqinsurance zqcardpaper 2027-03-09 20270309 zqpermit zqquotewords zqquoter 521.17 277.19 397 2027-02-07 822.31 zqdonorwords 4127.29 4,127.29 zqdonorseller zqdonorreceipt 1313.57 1,313.57 888.83 2026-01-13 zqpaperwords 2026-06-12 20260612 zqsoldwords 60811 60,811 61616 61,616 zqfeename "+
		"71.93 zqholding 83.51 zqholdwords 37.71 41.73 43.79 9h37 zqpacewords 2031-03-03 2031-03-04 zqoffername 60747 60,747 zqofferwords zqofferer 2031-05-05 57.37")
	unless(!public || o.snags, "zqsnag-a zqsnagwords zqfound-thing zqfoundwords")
	// Money: the vehicle, the fees, the forecast and the profit are not the buyer's, nor the public's at `work`.
	unless(o.whole(), "7341.17 7,341.17 195.31 60431 60432 60433 60,431 60,432 60,433 51013 51014 51015 51,013 51,014 51,015 52023 52024 52,023 52,024 53530 53,530 41013 42024 41,013 42,024 20.08")
	unless(!public, "9933.71 9,933.71 613.37 1717.19 1,717.19 7540.67 7,540.67")
	unless(!public || o.whole(), "9871.23 9,871.23")
	unless(o.lines() && o.whole(), "zqvehicleline zqfeeline")
	unless(o.lines(), "zqline 33.33 zqpartline 66.74 4.47")
	unless(!public || o.hours, "zqtime 497 8h17 8&nbsp;h 377")
	unless(o.workshop() || public && o.suppliers && o.whole(), "zqcarsupplier zqauction")
	unless(!public || o.suppliers, "zqsupplier zqpartsupplier zqpayer")
	unless(!public, "zqreceipt zqcheckreceipt zqinspector zqinspectby zqinspectreceipt zqinspectphoto zqtightby zqcontact")
	unless(o.workshop(), "zqcarreceipt")
	unless(!public || o.number, "zqplate KP042788 GDM9A8KP")
	return list
}

func TestNoFileTellsASecret(t *testing.T) {
	for _, themeName := range themes.Names() {
		th, err := themes.Load(themeName, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range onlookers() {
			fsys := secretBuild(o.public)
			files := secretSite(t, fsys, o, th)
			all := everyByte(t, files)
			for _, secret := range o.hidden() {
				for _, where := range slices.Sorted(maps.Keys(all)) {
					if at := find(all[where], secret); at >= 0 {
						t.Errorf("%s, %s: %s tells %q: …%s", themeName, o.name, where, secret, strings.ToValidUTF8(all[where][max(0, at-60):min(len(all[where]), at+40)], "?"))
					}
				}
			}
			// No picture is there that no shown page names: they go by their content.
			want := map[view.Audience]int{view.ForWorkshop: 7, view.ForBuyer: 3, view.ForPublic: 2}[o.to]
			if n := len(slices.DeleteFunc(slices.Clone(files), func(f place.File) bool { return !strings.HasPrefix(f.Path, "pictures/") })); n != want {
				t.Errorf("%s, %s: %d pictures, want %d", themeName, o.name, n, want)
			}
		}
	}
}

// An audience that only this test knows of is shown nothing that anybody wrote, and its
// site is kept from search engines; likewise in a garage that forgot to say for whom it is.
func TestUnknownAudienceIsShownNothing(t *testing.T) {
	somebody := onlooker{name: "somebody", to: "somebody", public: "  money: lines\n  suppliers: yes\n  vin: full\n  registration: yes"}
	fsys := secretBuild(somebody.public)
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	v := view.Of(state.At(b, 0, today), somebody.to)
	options := Options{Theme: theme(t), BaseURL: base, Store: pictures, Read: fsys.ReadFile, Notes: []RawNote{{File: b.Card.Note.File}, {File: b.Sessions[0].Note.File}}}
	garage, err := allOf(GarageSite(Garage{Name: "Two", Builds: []Build{{Path: "one", View: v, Notes: options.Notes}}}, options))
	if err != nil {
		t.Fatal(err)
	}
	for where, text := range everyByte(t, append(secretSite(t, fsys, somebody, theme(t)), garage...)) {
		for _, secret := range append(somebody.hidden(), "zq", "halden fjord", "2026-04") {
			if find(text, secret) >= 0 {
				t.Errorf("%s tells %q", where, secret)
			}
		}
		if strings.Contains(where, ".html") && !strings.Contains(text, `<meta name="robots" content="noindex`) {
			t.Errorf("%s may be listed", where)
		}
		if strings.Contains(where, "sitemap") || strings.Contains(where, "robots") {
			t.Errorf("%s is there", where)
		}
	}
}

// The tests above must be able to fail: the workshop's copy holds every secret but
// those that nobody may see.
func TestSecretsAreThere(t *testing.T) {
	workshop := onlookers()[0]
	all := everyByte(t, secretSite(t, secretBuild(workshop.public), workshop, theme(t)))
	text := strings.Join(slices.Collect(maps.Values(all)), "\n")
	nobody := onlooker{to: view.ForPublic, money: "nothing"}
	for _, secret := range nobody.hidden() {
		grouped := strings.ContainsAny(secret, ",&") || secret == "497" || secret == "8h17" || secret == "377" // one of several ways to write it
		if there := find(text, secret) >= 0; !there && !slices.Contains(workshop.hidden(), secret) && !grouped {
			t.Errorf("the workshop's copy does not hold %q either", secret)
		}
	}
}

func secretSite(t *testing.T, fsys fstest.MapFS, o onlooker, th *themes.Theme) []place.File {
	t.Helper()
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil || b.LinesLeftOut > 0 {
		t.Fatalf("%v, %v", err, b.Faults)
	}
	options := Options{Theme: th, BaseURL: base, Store: pictures, Read: func(p string) ([]byte, error) { return fs.ReadFile(fsys, p) }}
	options.Notes = append(options.Notes, RawNote{File: b.Card.Note.File}) // given for all, shown to the workshop alone
	for _, s := range b.Sessions {
		options.Notes = append(options.Notes, RawNote{File: s.Note.File})
	}
	var files []place.File
	for _, asOf := range []string{"", "2026-06-10"} { // sold, and before that
		d := day0(t, asOf)
		st := state.At(b, d, today)
		v := view.Of(st, o.to)
		if o.pack {
			v = view.ForHandover(st, view.ForBuyer, nil)
		}
		made, err := allOf(Site(v, options))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range made {
			if asOf == "" || !strings.HasPrefix(f.Path, "pictures/") {
				f.Path += asOf
				files = append(files, f)
			}
		}
	}
	return files
}

// everyByte is what each file holds, and its name, in small letters: as it is, with
// what HTML and JSON escape undone, and without the spaces and marks of a figure.
func everyByte(t *testing.T, files []place.File) map[string]string {
	t.Helper()
	all := map[string]string{}
	for _, f := range files {
		raw := f.Path + "\n" + string(f.Data)
		if strings.HasPrefix(f.Path, "pictures/") {
			raw += "\n" + pictureTexts(t, f)
		}
		all[f.Path] = strings.ToLower(raw + "\n" + html.UnescapeString(raw) + "\n" + strings.NewReplacer(`\u0026`, "&", `\u003c`, "<").Replace(raw))
	}
	return all
}

// Of a build that is not sold everybody is told the likely day on which it is ready, and the
// workshop when at the earliest and the latest besides.
func TestWhoSeesReady(t *testing.T) {
	for _, o := range onlookers() {
		fsys := secretBuild(o.public)
		card := fsys["build.md"]
		card.Data = []byte(strings.Replace(string(card.Data), "  paint: colour\n", "  paint: colour\n  body: hours 11 44 99\n", 1))
		all := strings.Join(slices.Collect(maps.Values(everyByte(t, secretSite(t, fsys, o, theme(t))))), "\n")
		b, err := journal.ReadBuild(fsys, ".")
		if err != nil {
			t.Fatal(err)
		}
		st := state.At(b, day0(t, "2026-06-10"), today)
		r, holding := st.Ready(), st.Costs().Forecast.Holding.StringFixed(2)
		if got := find(all, holding) >= 0; got != o.workshop() {
			t.Errorf("%s: %s of holding is told: %v", o.name, holding, got)
		}
		for d, seen := range map[measure.Date]bool{r.Early: o.workshop(), r.Likely: true, r.Late: o.workshop()} {
			if got := find(all, d.String()) >= 0 && find(all, english.Day(d)) >= 0; got != seen {
				t.Errorf("%s: %s is told: %v", o.name, d, got)
			}
		}
	}
}
