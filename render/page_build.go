package render

import (
	"html/template"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

// outstandingShown is how many snags of a group the front page lists.
const outstandingShown = 6

type buildPage struct {
	Frame
	Lead        string // when, and over how many sessions
	State       string // sold, open or clear
	Status      string
	Points      []template.HTML // what the status rests on
	Dial        *Dial
	Plates      []Plate
	About       template.HTML
	Photo       *Photo // where the job card shows no picture
	Last        *Teaser
	Outstanding []SnagGroup
	AllSnags    template.HTML
	Withheld    []string
	Stages      []StageBar
	Vehicle     []Fact
}

// A Teaser invites to read a session.
type Teaser struct {
	Href    string
	Title   string
	Day     template.HTML
	Stage   string
	Words   string
	Picture *Picture
}

// A Photo is a picture with the session it is of.
type Photo struct {
	*Picture
	From template.HTML
}

// A Fact is a name and what is known under it.
type Fact struct {
	Name, Value string
	Note        string // what the name means, where few will know it
}

// A StageBar is how far a stage has come.
type StageBar struct {
	Name, Done string
	Width      string // of the bar, of 100; "" where there is nothing to count
	Time       string
	Net        template.HTML
	Sessions   string
	Finished   bool
}

func (s *site) buildSheets() []sheet {
	const at = "index.html"
	return one(true, at, func() (any, error) {
		v := s.v
		about := bare(v.About)
		p := buildPage{Frame: s.frame(at, "build", v.Name, about), Plates: s.buildPlates(), Stages: s.stageBars(), Withheld: s.withheld()}
		if n := len(v.Sessions); n > 0 {
			p.Lead = span(v.Sessions[0].Date, v.Sessions[n-1].Date) + ", " + count(n, "session")
		}
		if n := len(s.sessions); n > 0 {
			last := s.sessions[n-1]
			p.Last = &Teaser{Href: s.session(at, last.Name), Title: last.Title, Day: when(last.Date), Stage: title(last.Stage), Words: shorten(bare(last.Body), 320)}
			if list := s.bodyPictures(at, last.Body); len(list) > 0 && !(s.front != nil && s.front.session == last) {
				p.Last.Picture = list[0]
			}
		}
		if f := s.front; f != nil && f.session != nil {
			p.Photo = &Photo{f.picture, link(s.session(at, f.session.Name), f.session.Title+", "+day(f.session.Date))}
		}
		p.Vehicle = s.vehicleFacts()
		s.status(&p)
		p.Outstanding = s.outstanding(at, v.Snags, outstandingShown)
		if len(v.Snags) > 0 {
			p.AllSnags = link("snags.html", "All snags, outstanding and cleared")
			p.Dial = s.tally().dial()
		}
		var err error
		if tells(v.About) {
			p.About, err = s.body(at, v.About, "")
		}
		return p, err
	})
}

// vehicleFacts are what is known of the vehicle.
func (s *site) vehicleFacts() []Fact {
	var list []Fact
	now := distance(s.v.Odometer)
	var odometer []string // what the notes say now, and what the card said once
	for _, d := range s.v.Vehicle {
		switch {
		case now == "" || !isOdometer(d.Name):
			list = append(list, detail(d))
		case distance(d.Value) != now:
			odometer = append(odometer, distance(d.Value))
		}
	}
	if now != "" {
		list = append(list, Fact{"Odometer", strings.Join(append([]string{now}, odometer...), "; on the job card: "), ""})
	}
	return list
}

// details are what names of the vehicle's details mean that few know. What follows from
// a category is a matter of each country's rules, so nothing is said of it.
var details = map[string]Fact{
	"category": {Name: "Salvage category", Note: "how the damaged vehicle was classed before this work, such as by an insurer; what that means differs by country, so ask locally"},
	"keepers":  {Name: "Keepers", Note: "how many people or firms it has been registered to, as the builder knows it"},
}

// detail is one detail of the vehicle for people.
func detail(d journal.Detail) Fact {
	f := details[strings.ToLower(d.Name)]
	if f.Name == "" {
		f.Name = label(d.Name)
	}
	f.Value = d.Value
	return f
}

func isOdometer(name string) bool {
	return strings.EqualFold(name, "odometer") || strings.EqualFold(name, "mileage")
}

// open counts the outstanding snags that are so.
func (s *site) open(is func(*view.SnagView) bool) int {
	n := 0
	for _, x := range s.v.Snags {
		if x.Open && is(x) {
			n++
		}
	}
	return n
}

// A tally counts the snags, with those that are not shown.
type tally struct{ open, cleared, unseen int } // unseen are open and not shown

func (s *site) tally() tally {
	open := s.open(func(*view.SnagView) bool { return true })
	return tally{open + s.v.UnseenOpen, len(s.v.Snags) - open + s.v.UnseenCleared, s.v.UnseenOpen}
}

func (t tally) dial() *Dial { return dial(t.cleared, t.open+t.cleared) }

// words are how many are cleared, and how many that are open are not shown.
func (t tally) words() string {
	list := []string{grouped(t.cleared) + " cleared"}
	if t.unseen > 0 {
		list = append(list, grouped(t.unseen)+" not shown")
	}
	return strings.Join(list, ", ")
}

func isTemporary(x *view.SnagView) bool { return x.Kind == "temporary" }

// status says at a glance where the build stands.
func (s *site) status(p *buildPage) {
	v := s.v
	t := s.tally()
	p.State = "open"
	switch {
	case v.SoldOn != 0:
		p.State, p.Status = "sold", "Sold on "+day(v.SoldOn)
	case len(v.Sessions) == 0:
		p.Status = "Not begun"
	default:
		p.Status = "In work"
		if stage := v.Sessions[len(v.Sessions)-1].Stage; stage != "" {
			p.Status += ": " + stage
		}
	}
	if v.AsOf != 0 {
		p.Points = append(p.Points, "as on "+when(v.AsOf))
	}
	point := func(n int, text, href string) {
		if len(v.Snags) == 0 { // there is no page of snags
			href = ""
		}
		if n > 0 {
			p.Points = append(p.Points, link(href, text))
		}
	}
	for _, w := range s.warnings() {
		point(1, w.Text, w.Href)
	}
	point(t.open, grouped(t.open)+nbsp+"outstanding", "snags.html")
	point(t.unseen, grouped(t.unseen)+nbsp+"of them not shown", "")
	if t.open == 0 && t.cleared > 0 && len(v.Withheld) == 0 {
		if p.State == "open" {
			p.State = "clear"
		}
		point(1, "nothing outstanding", s.snags.to("index.html", "_cleared"))
	}
}

// warnings say what is dangerous or held together for now, and lead there.
func (s *site) warnings() []Link {
	var list []Link
	if n := s.open(func(x *view.SnagView) bool { return x.Severity == note.Dangerous }); n > 0 {
		list = append(list, Link{Text: grouped(n) + nbsp + "dangerous", Href: s.snags.to("index.html", "_open")})
	}
	if n := s.open(isTemporary); n > 0 {
		list = append(list, Link{Text: count(n, "temporary fix", "temporary fixes"), Href: s.snags.to("index.html", "_temporary")})
	}
	return list
}

// withheld tells of what is outstanding but not shown.
func (s *site) withheld() []string { return withheldWords(s.v.Withheld) }

func withheldWords(bySeverity map[note.Severity]int) []string {
	var list []string
	for severity := note.Dangerous; severity >= note.Minor; severity-- {
		if n := bySeverity[severity]; n > 0 {
			list = append(list, count(n, severity.String()+" item")+" not described here")
		}
	}
	return list
}

func (s *site) buildPlates() []Plate {
	v := s.v
	var list []Plate
	add := func(there bool, p Plate) {
		if there {
			list = append(list, p)
		}
	}
	add(v.Minutes > 0, Plate{"Work", minutes(v.Minutes), count(view.DistinctDays(v.Sessions), "day"), "sessions/index.html"})
	if s.hasMoney() {
		m := v.Money
		label := "Spent on the work"
		if m.Whole {
			label = "Spent"
		}
		creditNote := ""
		if !m.Costs.Credits.IsZero() {
			creditNote = "after " + s.sum(m.Costs.Credits) + " of credits"
		}
		add(true, Plate{label, s.sum(m.Costs.Net), creditNote, "money.html"})
		if sold := m.Costs.Sold; sold != nil {
			add(true, Plate{"Sold for", s.sum(sold.Price), "profit " + minus(s.sum(sold.Profit)), "money.html#_sale"})
		}
	}
	fitted := 0
	for _, x := range v.Parts {
		if x.State == "fitted" || x.State == "refitted" {
			fitted++
		}
	}
	add(len(v.Parts) > 0, Plate{"Parts fitted", grouped(fitted), "of " + grouped(len(v.Parts)), "parts.html"})
	if n, m := len(v.Checks), len(v.Readings); n > 0 {
		add(true, Plate{"Checks done", grouped(n), strings.TrimPrefix("and "+count(m, "reading"), "and 0"+nbsp+"readings"), s.measured.to("index.html", "_h-checks")})
	} else {
		add(m > 0, Plate{"Readings", grouped(m), "", "measured.html"})
	}
	if h := v.Handover; h != nil {
		met := 0
		for _, r := range h.Requirements {
			if r.Met {
				met++
			}
		}
		add(true, Plate{"Handover record", grouped(met) + " of " + grouped(len(h.Requirements)), "requirements met", "pack.html"})
	}
	if t := s.tally(); len(v.Snags) > 0 {
		add(true, Plate{"Outstanding", grouped(t.open), t.words(), "snags.html"})
	}
	return list
}

// stageBars are the stages that the view tells something of.
func (s *site) stageBars() []StageBar {
	var list []StageBar
	costs := map[string]state.StageCosts{}
	if s.hasMoney() {
		for _, c := range s.v.Money.Costs.Stages {
			costs[c.Name] = c
		}
	}
	for _, p := range s.progress {
		c := costs[p.Stage]
		if p.All == 0 && p.Sessions == 0 && c.Net.IsZero() && c.Minutes == 0 {
			continue
		}
		bar := StageBar{Name: s.stageName(c, p.Stage), Finished: p.Done == p.All}
		if p.All > 0 {
			bar.Done = grouped(p.Done) + " of " + grouped(p.All)
			bar.Width = number(float64(p.Done) / float64(p.All) * 100)
		}
		if c.Minutes > 0 {
			bar.Time = minutes(c.Minutes)
		}
		if !c.Net.IsZero() {
			bar.Net = link(s.ledger.to("index.html", s.stageAnchor(p.Stage)), minus(s.sum(c.Net)))
		}
		list = append(list, bar)
	}
	return list
}
