package view

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
	"guidecoat/journal/state"
	"guidecoat/journal/trial"

	"github.com/shopspring/decimal"
	"github.com/yuin/goldmark/ast"
)

// secretBuild has a distinct word, number or file in every field that some
// audience may not see; see secrets.
func secretBuild(public string) fstest.MapFS {
	fsys := trial.Files(`
-- build.md --
---
build: Halden Fjord
vehicle:
  make: Halden
  VIN: 0H8GDM9A8KP042788
  registration: plate-secret
currency: GBP
vat: 20%
resale: 60431 60452 60473
profit: 60811
confidence: 91%
fees:
  fee-secret: 61616
stages:
  buying: budget 51010 51011 51012; purchase
  axle: beam; budget 52020 52021 52022; system suspension
  paint: colour
due checks:
  tow-test: after lighting; major; because tow-reason
public:
` + public + `
---
about-shown <!-- about-comment --> and

<!--
about-block
-->

[a file](about-file.pdf)
-- 2026-04-02.md --
---
title: title-shown
stage: axle
odometer: 91000 km
time:
  - 5h time-shown
  - 77m time-private; private
cost:
  - 7341.17 car-shown; as vehicle; from car-supplier; receipt car.pdf
  - 195.31 fee-shown; as fees
  - 33.33 line-shown; from line-supplier; receipt line.pdf; for hub
  - 22.22 line-private; private; from private-supplier; receipt private.pdf; for hub
  - 1.01 loose-line; for loose; private; from leak-supplier
  - 44.40 own-line; for loose
  - 1.00 more-line; from line-supplier
  - 2.00 paint-line; stage paint
  - 66.70 for-private-part; for hidden-part; surcharge 20
credit:
  - 4.44 credit-private; private; from private-payer
  - 5.55 credit-shown; from shown-payer
parts:
  - hub: needed hub-shown; estimate 41010 42020 43030; number number-shown; photo hub.jpg
  - loose: needed loose-shown
  - hidden-part: needed part-private; private; number number-private; donor donor-private; photo part-private.jpg; estimate 45050
  - mixed: needed mixed-private; private; from mixed-supplier; number mixed-number; photo mixed-private.jpg
checks:
  a-check: done check-shown; by inspector-shown; receipt check.pdf; photo check.jpg
  b-check: failed check-private; private; by inspector-private; receipt check-private.pdf; photo check-private.jpg
readings:
  a-reading: 8.8 mm reading-shown; min 8 mm
  b-reading: 9.92 mm reading-private; private; max 9.01 mm
remaining:
  paint: 53530 53531 53532 remaining-remark; hours 73 74 75
---
# heading-shown

words-shown <!-- inline-comment --> and ![p](body.jpg)

<!-- block-comment -->

- [ ] job shown-snag: snag-shown with [l](snag.pdf); waits for hidden-snag; waits for hub; takes 3h
- [ ] job hidden-snag: snag-private [l](snag-private.pdf); major; private; photo snag-private.jpg
- [ ] job said-snag: said-opened; dangerous
- [ ] job comment-snag: words <!-- item-comment; and more --> after
- [x] job a-clear: clear-shown; photo clear.jpg

~~~scan abs
C0035 code-shown
~~~
-- 2026-04-03.md --
---
stage: axle
parts:
  mixed: fitted mixed-shown
---
- [ ] said-snag: remark-private; private
- [x] hidden-snag: cleared-hidden
- [ ] again hidden-snag: again-hidden
-- 2026-06-08.md --
---
private: yes
title: session-title
stage: paint
odometer: 987654 km
time: 2h session-time
cost:
  - 111.10 session-line; from session-supplier; receipt session.pdf
parts:
  session-part: needed session-part-words
checks:
  s-check: failed session-check; by session-inspector
readings:
  s-reading: 9.93 mm session-reading; max 9.02 mm
---
# session-heading

session-words ![p](session.jpg)

- [ ] job session-snag: session-snag-words; dangerous
- [ ] said-snag: session-remark

~~~scan session-unit
C0999 session-code
~~~
-- page.md --
---
page: page-shown
---
page-words <!-- page-comment --> [l](page.pdf)
-- private page.md --
---
page: page-private
private: yes
---
page-private-words [l](page-private.pdf)
`)
	for _, name := range strings.Fields("about-file.pdf car.pdf line.pdf private.pdf hub.jpg part-private.jpg mixed-private.jpg check.pdf check.jpg check-private.pdf check-private.jpg body.jpg snag.pdf snag-private.pdf snag-private.jpg clear.jpg session.pdf session.jpg page.pdf page-private.pdf nobody.jpg") {
		fsys[name] = &fstest.MapFile{Data: []byte{1}}
	}
	return fsys
}

// A secret is a text and who may see it: a row of the manual's table of audiences.
type secret struct {
	text string
	seen func(a audience) bool
}

// An audience with the settings of `public` that hold for it.
type audience struct {
	name                           string
	to                             Audience
	public                         string
	money                          string // of the public
	hours, snags, suppliers, plate bool
	vin                            string
}

// least is an audience of these tests alone, whose row forgets all but that it sees notes.
const least Audience = "least"

func init() { table = append(table, Copy{Audience: least, rights: rights{notes: true}}) }

func everyAudience() []audience {
	list := []audience{{name: "least", to: least, public: "  money: lines\n  suppliers: yes\n  vin: full\n  registration: yes", vin: "no"}, {name: "workshop", to: ForWorkshop, public: "  money: nothing"}, {name: "buyer", to: ForBuyer, public: "  money: nothing\n  snags: no\n  hours: no"}}
	for _, money := range []string{"nothing", "work", "totals", "lines"} {
		list = append(list,
			audience{name: "public " + money, to: ForPublic, public: "  money: " + money, money: money, hours: true, snags: true, vin: "masked"},
			audience{name: "public " + money + ", everything else shown", to: ForPublic, public: "  money: " + money + "\n  suppliers: yes\n  vin: full\n  registration: yes", money: money, hours: true, snags: true, suppliers: true, vin: "full", plate: true},
			audience{name: "public " + money + ", nothing else shown", to: ForPublic, public: "  money: " + money + "\n  hours: no\n  snags: no\n  vin: no", money: money, vin: "no"})
	}
	return list
}

func (a audience) workshop() bool { return a.to == ForWorkshop }
func (a audience) isPublic() bool { return a.to != ForBuyer && a.to != ForWorkshop }
func (a audience) whole() bool    { return a.workshop() || a.money == "totals" || a.money == "lines" }
func (a audience) lines() bool    { return !a.isPublic() || a.money == "lines" }

var secrets = func() []secret {
	var list []secret
	add := func(seen func(audience) bool, texts string) {
		for _, text := range strings.Fields(texts) {
			list = append(list, secret{text, seen})
		}
	}
	all := func(audience) bool { return true }
	workshop := audience.workshop
	none := func(audience) bool { return false }

	// Words, pictures, parts, checks, readings.
	add(all, "about-shown about-file.pdf title-shown heading-shown words-shown body.jpg hub-shown number-shown hub.jpg loose-shown mixed-shown check-shown "+
		"reading-shown code-shown page-shown page-words page.pdf")
	add(none, "about-comment about-block inline-comment block-comment item-comment page-comment fee-secret 61616 nobody.jpg")
	// What is private, and private sessions.
	add(workshop, "time-private line-private 22.22 private-supplier private.pdf credit-private 4.44 private-payer hidden-part part-private number-private donor-private part-private.jpg "+
		"mixed-private mixed-number mixed-supplier mixed-private.jpg leak-supplier loose-line 1.01 check-private inspector-private check-private.pdf check-private.jpg reading-private 9.92 9.01 "+
		"hidden-snag snag-private snag-private.pdf snag-private.jpg remark-private cleared-hidden again-hidden "+
		"session-title 987654 session-time session-line session-supplier session.pdf 111.1 session-part session-part-words session-check session-inspector "+
		"session-reading 9.93 9.02 session-heading session-words session.jpg session-snag session-snag-words session-unit C0999 session-code session-remark 2026-06-08 "+
		"page-private page-private-words page-private.pdf")
	// Snags by public.snags.
	snags := func(a audience) bool { return !a.isPublic() || a.snags }
	add(snags, "shown-snag snag-shown snag.pdf comment-snag clear-shown clear.jpg")
	// Money by public.money; never vehicle, fees, forecast, profit for buyers and at `work`.
	add(func(a audience) bool { return a.lines() && a.whole() }, "car-shown fee-shown")
	add(func(a audience) bool { return a.whole() }, "7341.17 195.31 60431 60452 60473 51010 51011 51012 52020 52021 52022 53418.9 53419.9 53420.9")
	add(func(a audience) bool { return a.whole() }, "41010 42020 43030")
	add(workshop, "45050 60811")
	add(none, "remaining-remark")
	add(func(a audience) bool { return a.lines() }, "line-shown own-line credit-shown for-private-part 33.33 44.4 5.55 66.7")
	// Time by public.hours.
	hours := func(a audience) bool { return !a.isPublic() || a.hours }
	add(hours, "time-shown")
	add(func(a audience) bool { return a.whole() && hours(a) }, "71h 72h 73h")
	// Suppliers, receipts, by.
	suppliers := func(a audience) bool { return !a.isPublic() || a.suppliers }
	add(suppliers, "line-supplier")
	add(func(a audience) bool { return suppliers(a) && a.whole() }, "car-supplier")
	add(func(a audience) bool { return suppliers(a) && a.lines() }, "shown-payer")
	add(func(a audience) bool { return a.workshop() }, "car.pdf")
	add(func(a audience) bool { return !a.isPublic() }, "line.pdf check.pdf check.jpg inspector-shown")
	// VIN and registration.
	add(func(a audience) bool { return !a.isPublic() || a.vin == "full" }, "0H8GDM9A8KP042788 KP042788 GDM9A")
	add(func(a audience) bool { return !a.isPublic() || a.vin != "no" }, "0H8")
	add(func(a audience) bool { return !a.isPublic() || a.plate }, "plate-secret")
	return list
}()

func TestViewHoldsNoSecret(t *testing.T) {
	for _, a := range everyAudience() {
		b := trial.CompileFS(t, secretBuild(a.public), ".")
		trial.WantFaults(t, a.name, b)
		seen := everythingIn(Of(state.At(b, 0, trial.Today), a.to))
		for _, s := range secrets {
			shown := slices.Contains(seen, s.text) || strings.Contains(strings.Join(seen, "\n"), s.text)
			switch want := s.seen(a); {
			case shown && !want:
				t.Errorf("%s: the view holds %q in %q", a.name, s.text, whereIs(seen, s.text))
			case !shown && want && !strings.HasPrefix(s.text, "6043"):
				t.Errorf("%s: the view does not hold %q", a.name, s.text)
			}
		}
	}
}

func whereIs(seen []string, text string) string {
	for _, s := range seen {
		if strings.Contains(s, text) {
			return s
		}
	}
	return ""
}

// everythingIn lists every text, number and day in a view, by reflection. Of a
// body it takes what a page would show: the text of its nodes but for comments,
// with the task-list items as the view shows them.
func everythingIn(v any) []string {
	var list []string
	seen := map[uintptr]bool{}
	var walk func(path string, v reflect.Value)
	walk = func(path string, v reflect.Value) {
		switch x := safeInterface(v).(type) {
		case decimal.Decimal:
			list = append(list, x.String())
			return
		case measure.Date:
			list = append(list, x.String())
			return
		case measure.Minutes:
			list = append(list, x.String())
			return
		case measure.Quantity:
			list = append(list, x.String())
			return
		case source.Span, source.File, *source.File:
			return // a place is no content; pages do not print it
		case *Body:
			if x != nil {
				list = append(list, shownBody(x)...)
			}
			return
		}
		switch v.Kind() {
		case reflect.Pointer:
			if !v.IsNil() && !seen[v.Pointer()] {
				seen[v.Pointer()] = true
				walk(path, v.Elem())
			}
		case reflect.Interface:
			if !v.IsNil() {
				walk(path, v.Elem())
			}
		case reflect.Struct:
			for i := range v.NumField() {
				walk(path+"."+v.Type().Field(i).Name, v.Field(i))
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				walk(path, v.Index(i))
			}
		case reflect.Map:
			for _, key := range v.MapKeys() {
				walk(path, key)
				walk(path, v.MapIndex(key))
			}
		case reflect.String:
			list = append(list, v.String())
		case reflect.Int, reflect.Int32, reflect.Int64, reflect.Float64:
			list = append(list, fmt.Sprint(v))
		}
	}
	walk("", reflect.ValueOf(v))
	return list
}

func safeInterface(v reflect.Value) any {
	if v.IsValid() && v.CanInterface() {
		return v.Interface()
	}
	return nil
}

// shownBody is the text a page makes of a body.
func shownBody(b *Body) []string {
	var list []string
	_ = ast.Walk(b.Doc(), func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.ListItem:
			isTask := n.FirstChild() != nil && n.FirstChild().FirstChild() != nil && n.FirstChild().FirstChild().Kind().String() == "TaskCheckBox"
			if !b.Snags || !isTask {
				return ast.WalkContinue, nil
			}
			if it := b.Items[note.ItemAt(n)]; it != nil {
				list = append(list, everythingIn(it)...)
			}
			return ast.WalkSkipChildren, nil
		case *ast.FencedCodeBlock:
			if n.Info != nil && strings.HasPrefix(string(n.Info.Segment.Value(b.Source)), "scan ") {
				return ast.WalkSkipChildren, nil // shown from the view's scans
			}
			list = append(list, string(n.Lines().Value(b.Source)))
		case *ast.Text:
			list = append(list, string(n.Segment.Value(b.Source)))
		case *ast.Link:
			list = append(list, string(n.Destination))
		case *ast.Image:
			list = append(list, string(n.Destination))
		}
		return ast.WalkContinue, nil
	})
	return list
}

// Time counts nowhere where it is not shown, not even by the hour.
func TestHoursAreHidden(t *testing.T) {
	for _, sold := range []string{"", "sold: 9000\n"} {
		fsys := secretBuild("  money: lines\n  hours: no")
		if sold != "" {
			fsys["2026-06-20.md"] = &fstest.MapFile{Data: []byte("---\n" + sold + "---\n")}
		}
		v := Of(state.At(trial.CompileFS(t, fsys, "."), 0, trial.Today), ForPublic)
		if v.Minutes != 0 || v.Money.Costs.Minutes != 0 || v.Hours {
			t.Errorf("minutes %v, %v", v.Minutes, v.Money.Costs.Minutes)
		}
		for _, s := range v.Money.Costs.Stages {
			if s.Minutes != 0 || s.HoursLeft != nil {
				t.Errorf("%s: %v, %v", s.Name, s.Minutes, s.HoursLeft)
			}
		}
		for _, s := range v.Sessions {
			if s.Minutes != 0 || len(s.Work) > 0 {
				t.Errorf("%s: %v", s.Name, s.Work)
			}
		}
		if f := v.Money.Costs.Forecast; f != nil && f.HoursLeft != [3]measure.Minutes{} {
			t.Errorf("hours left %v", f.HoursLeft)
		}
		if r := v.Money.Costs.Sold; r != nil && r.PerHour != nil {
			t.Errorf("profit per hour %v", r.PerHour)
		}
		if sold != "" && v.Money.Costs.Sold == nil {
			t.Error("the sale is not shown")
		}
	}
}

// What is private counts in every total all the same.
func TestPrivateCountsInTotals(t *testing.T) {
	b := trial.CompileFS(t, secretBuild("  money: work"), ".")
	v := Of(state.At(b, 0, trial.Today), ForPublic)
	// 33.33 + 22.22 + 1.01 + 44.40 + 1.00 + 2.00 + 66.70 + 111.10, of the work; credits 4.44 + 5.55; 300 + 77 + 120 minutes.
	trial.WantEqual(t, "work", b.FormatMoney(v.Money.Costs.Spent)+" "+b.FormatMoney(v.Money.Costs.Credits)+" "+fmt.Sprint(int(v.Money.Costs.Minutes), int(v.Minutes)), "281.76 9.99 497 497")
	buyer := Of(state.At(b, 0, trial.Today), ForBuyer)
	trial.WantEqual(t, "buyer", b.FormatMoney(buyer.Money.Costs.Spent)+" lines "+fmt.Sprint(buyer.Money.LinesShown, buyer.Money.Whole), "281.76 lines true false")
	workshop := Of(state.At(b, 0, trial.Today), ForWorkshop)
	trial.WantEqual(t, "workshop", b.FormatMoney(workshop.Money.Costs.Spent), "7818.24")
	for _, c := range []struct {
		money string
		sum   string // spent, or nothing
		lines int
	}{{"nothing", "", 0}, {"work", "281.76", 0}, {"totals", "7818.24", 0}, {"lines", "7818.24", 8}} {
		v := Of(state.At(trial.CompileFS(t, secretBuild("  money: "+c.money), "."), 0, trial.Today), ForPublic)
		got, lines := "", 0
		if v.Money != nil {
			got, lines = b.FormatMoney(v.Money.Costs.Spent), len(v.Money.Lines)
		}
		trial.WantEqual(t, c.money, fmt.Sprint(got, " ", lines), fmt.Sprint(c.sum, " ", c.lines))
		for _, s := range v.Sessions {
			if c.money != "lines" && (s.Spent != nil || len(s.Money) > 0) {
				t.Errorf("%s: session %s shows its money", c.money, s.Name)
			}
		}
	}
}

// An open major or dangerous snag that is private shows to the buyer as one
// withheld, by its severity; to nobody else, and not when it is cleared.
func TestWithheld(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-04-01.md", "stage: x", `
- [ ] job a-a: x; dangerous; private
- [ ] job b-b: x; major; private
- [ ] job c-c: x; major; private
- [ ] job d-d: x; minor; private
- [x] job e-e: x; dangerous; private
- [ ] job f-f: x; dangerous
`)+trial.Session("2026-04-02.md", "private: yes", "- [ ] job g-g: x; major\n"))
	for to, want := range map[Audience]string{ForBuyer: "map[major:3 dangerous:1]", ForPublic: "map[]", ForWorkshop: "map[]"} {
		trial.WantEqual(t, string(to), fmt.Sprint(Of(state.At(b, 0, trial.Today), to).Withheld), want)
	}
	var shown []string
	for _, s := range Of(state.At(b, 0, trial.Today), ForBuyer).Snags {
		shown = append(shown, s.ID)
	}
	trial.WantList(t, "shown to the buyer", shown, []string{"f-f"})
}

func TestMaskedVIN(t *testing.T) {
	for vin, want := range map[string]string{"0H8GDM9A8KP042788": "0H8••••••••••••••", "AB": "AB", "": "", "Öl1x": "Öl1•"} {
		trial.WantEqual(t, vin, maskVIN(vin), want)
	}
}

// A sale that is private is told to nobody but the workshop.
func TestPrivateSale(t *testing.T) {
	for _, private := range []bool{false, true} {
		line := "sold: 9999.99 sold-words; to sold-to"
		if private {
			line += "; private"
		}
		b := trial.Compile(t, trial.Card("resale: 12000\npublic:\n  money: lines")+trial.Session("2026-04-01.md", line+"\nstage: x\ncost: 5\ntime: 1h", ""))
		for _, to := range Audiences() {
			v := Of(state.At(b, 0, trial.Today), to)
			all := strings.Join(everythingIn(v), "\n")
			sold := to == ForWorkshop || !private
			trial.WantEqual(t, fmt.Sprintf("%s, private %v: sold on", to, private), v.SoldOn != 0, sold)
			trial.WantEqual(t, fmt.Sprintf("%s, private %v: the price", to, private), strings.Contains(all, "9999.99"), sold && to != least)
			if strings.Contains(all, "sold-to") || to != ForWorkshop && strings.Contains(all, "12000") { // whose bid is up to it
				t.Errorf("%s: the view tells the buyer's name or the resale hoped for", to)
			}
		}
	}
}

// Only files that a shown page or line names are published.
func TestPublishedFiles(t *testing.T) {
	for _, c := range []struct {
		to     Audience
		public string
		want   string
	}{
		{ForPublic, "  money: lines", "about-file.pdf body.jpg clear.jpg hub.jpg page.pdf snag.pdf"},
		{ForPublic, "  snags: no", "about-file.pdf body.jpg hub.jpg page.pdf"},
		{ForBuyer, "  snags: no", "about-file.pdf body.jpg check.jpg check.pdf clear.jpg hub.jpg line.pdf page.pdf snag.pdf"},
		{ForWorkshop, "  snags: no", "about-file.pdf body.jpg car.pdf check-private.jpg check-private.pdf check.jpg check.pdf clear.jpg hub.jpg line.pdf mixed-private.jpg page-private.pdf page.pdf " +
			"part-private.jpg private.pdf session.jpg session.pdf snag-private.jpg snag-private.pdf snag.pdf"},
	} {
		v := Of(state.At(trial.CompileFS(t, secretBuild(c.public), "."), 0, trial.Today), c.to)
		trial.WantEqual(t, string(c.to)+c.public, strings.Join(v.Files, " "), c.want)
	}
}

// A view of an earlier day knows nothing of later ones.
func TestViewAsOf(t *testing.T) {
	b := trial.CompileFS(t, secretBuild("  money: lines"), ".")
	v := Of(state.At(b, trial.Day("2026-04-02"), trial.Today), ForWorkshop)
	all := strings.Join(everythingIn(v), "\n")
	for _, later := range []string{"mixed-shown", "remark-private", "session-words", "987654", "cleared-hidden"} {
		if strings.Contains(all, later) {
			t.Errorf("it knows %q", later)
		}
	}
	trial.WantEqual(t, "sessions", len(v.Sessions), 1)
	trial.WantEqual(t, "newest", v.Newest.String(), "2026-04-02")
	var severities []string
	for s := note.Minor; s <= note.Dangerous; s++ {
		severities = append(severities, s.String())
	}
	trial.WantList(t, "severities", severities, note.Severities)
}

// A private word about a snag hides that word, not the snag: a buyer is told of what
// was found and that it was cleared. Only what a private line says of the snag itself
// makes all of it private.
func TestPrivateWordsOfAPublicSnag(t *testing.T) {
	b := trial.Compile(t, "-- 2026-04-01.md --\n- [ ] temporary hub-shim: a shim of tin\n- [ ] job brake-pipe: corroded; dangerous\n- [ ] job door-seal: torn\n- [ ] job wing-dent: deep\n"+
		"-- 2026-04-02.md --\n---\nprivate: yes\n---\n- [ ] hub-shim: secret remark\n- [x] brake-pipe: secret pipe\n- [ ] door-seal: secret seal; due 2031-01-01\n"+
		"-- 2026-04-03.md --\n- [x] hub-shim: turned one\n- [ ] wing-dent: secret dent; private\n")
	var got []string
	v := Of(state.At(b, 0, trial.Today), ForBuyer)
	for _, s := range v.Snags {
		told := ""
		for _, e := range s.Events {
			told += " " + string(e.What) + "=" + e.Words
		}
		got = append(got, fmt.Sprintf("%s %v%s", s.ID, s.Open, told))
	}
	trial.WantList(t, "shown to the buyer", got, []string{
		"brake-pipe false opened=corroded", "hub-shim false opened=a shim of tin cleared=turned one", "wing-dent true opened=deep"})
	if all := fmt.Sprint(everythingIn(v)); strings.Contains(all, "secret") {
		t.Error("something private is shown")
	}
	trial.WantEqual(t, "not shown", v.UnseenOpen, 1)
}

// The same holds of a check that is due, and of a reading outside its limits.
func TestPrivateWordsOfWhatFollowsByItself(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-04-01.md", "parts:\n  caliper: fitted caliper; system brakes\nreadings:\n  disc: 7 mm; min 8 mm; minor\n  drum: 7 mm; min 8 mm; minor", "")+
		trial.Session("2026-04-02.md", "", "- [ ] brake-test: secret booking; due 2031-01-01; private\n- [ ] brake-leak-check: secret word; private\n- [ ] reading-disc: secret plan; takes 20m; private\n- [ ] reading-drum: secret thought; private\n"))
	trial.WantFaults(t, "the build", b)
	for to, want := range map[Audience]string{ForBuyer: "brake-leak-check reading-drum wheel-retorque", ForWorkshop: "brake-leak-check brake-test reading-disc reading-drum wheel-retorque"} {
		v := Of(state.At(b, 0, trial.Today), to)
		var ids []string
		for _, s := range v.Snags {
			ids = append(ids, s.ID)
		}
		slices.Sort(ids)
		trial.WantEqual(t, string(to), strings.Join(ids, " "), want)
		all := fmt.Sprint(everythingIn(v))
		trial.WantEqual(t, string(to)+" is told what is private", strings.Contains(all, "secret"), to == ForWorkshop)
		trial.WantEqual(t, string(to)+": not shown", fmt.Sprint(v.UnseenOpen, v.Withheld), map[Audience]string{ForBuyer: "2 map[dangerous:1]", ForWorkshop: "0 map[]"}[to])
	}
}

// An audience that the table does not have learns nothing at all, and needs every warning.
func TestUnknownAudienceSeesNothing(t *testing.T) {
	b := trial.Compile(t, trial.Card("public:\n  money: lines\n  hours: yes\n  registration: yes\n  vin: full")+trial.Session("2026-04-11.md", "time: 3h x\ncost: 12.00 glue", "- [ ] a job\n"))
	got, want := fmt.Sprintf("%+v", *Of(state.At(b, 0, trial.Today), "somebody")), fmt.Sprintf("%+v", View{Copy: Copy{Audience: "somebody"}})
	trial.WantEqual(t, "view", got, want)
	if c := CopyFor("somebody"); c.Folder != "" || c.Indexed || c.AsTyped || c.TellsPrivate() || c.TellsNames() {
		t.Errorf("%+v", c)
	}
}

// What the table says of a site as a whole: only the public's copy goes without a word
// on whom it is for, only that may be listed, and no two have one folder.
func TestCopies(t *testing.T) {
	folders := map[string]Audience{}
	for _, to := range Audiences() {
		if to == least {
			continue
		}
		c := CopyFor(to)
		if c.Folder == "" || folders[c.Folder] != "" {
			t.Errorf("%s has the folder %q of %q", to, c.Folder, folders[c.Folder])
		}
		folders[c.Folder] = to
		if public := to == ForPublic; (c.Banner == "") != public || c.Indexed != public || c.AsTyped != (to == ForWorkshop) || c.TellsPrivate() != (to == ForWorkshop) || c.TellsNames() == public {
			t.Errorf("%s: %+v", to, c)
		}
	}
}

// A part that was bought with the vehicle tells neither what that cost nor from whom.
func TestNothingOfBuyingOnParts(t *testing.T) {
	b := trial.Compile(t, trial.Card("stages:\n  buying: purchase\n  paint:\npublic:\n  suppliers: yes")+
		trial.Session("2026-04-11.md", "stage: paint\nparts:\n  spare-key: fitted key; free\n  lamp: fitted lamp\ncost:\n  - 55.55 for the key; for spare-key; from SECRETHOUSE; stage buying; surcharge 11.11\n"+
			"  - 44.44 listed with it; for lamp; as fees; from SECRETFEES\n  - 7.00 bulb; for lamp; from Kestrand\n", ""))
	for to, want := range map[Audience]string{ForPublic: "none none", ForBuyer: "0.00 7.00", ForWorkshop: "55.55 51.44"} {
		v := Of(state.At(b, 0, trial.Today), to)
		var paid []string
		for _, p := range v.Parts {
			if p.Paid == nil {
				paid = append(paid, "none")
			} else {
				paid = append(paid, p.Paid.StringFixed(2))
			}
		}
		trial.WantEqual(t, string(to)+": paid", strings.Join(paid, " "), want)
		all := strings.Join(everythingIn(v), "\n")
		for _, secret := range []string{"SECRET", "11.11"} {
			trial.WantEqual(t, string(to)+" sees "+secret, strings.Contains(all, secret), to == ForWorkshop)
		}
	}
}

// Of a stage of buying the public, by default, and the buyer see nothing.
func TestNothingOfBuying(t *testing.T) {
	b := trial.Compile(t, trial.Card("stages:\n  buying: purchase\n  paint:")+
		trial.Session("2026-04-11.md", "stage: buying\ntime: 2h fetched it\ncost:\n  - 1400.00 the estate\n  - 30.00 straps; as transport\ncredit: 5.00 strap back", "")+
		trial.Session("2026-04-12.md", "stage: paint\ntime: 1h sanded\ncost: 12.00 paint; as paint", ""))
	if got := b.Money[0].Category; got != "vehicle" {
		t.Errorf("the price is %s", got)
	}
	for to, want := range map[Audience]string{ForPublic: "12.00 1 1h 1h", ForBuyer: "12.00 1 1h 1h", ForWorkshop: "1437.00 2 3h 3h"} {
		v := Of(state.At(b, 0, trial.Today), to)
		if got := fmt.Sprintf("%s %d %s %s", v.Money.Costs.Net.StringFixed(2), len(v.Money.Costs.Stages), v.Money.Costs.Minutes, v.Minutes); got != want {
			t.Errorf("%s sees %s, want %s", to, got, want)
		}
		if first := v.Sessions[0]; to != ForWorkshop && (first.Minutes != 0 || len(first.Work) > 0) {
			t.Errorf("%s sees %s of buying", to, first.Minutes)
		}
		for _, l := range v.Money.Lines {
			if l.Stage == "buying" && to != ForWorkshop {
				t.Errorf("%s sees %s", to, l.Description)
			}
		}
	}
}
