package journal

import (
	"cmp"
	"fmt"
	"path"
	"regexp"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

// From notes to a build: sessions, then lines by the table of keys, then what only all of them together tell.

// compile resolves the sessions' lines in order.
func (b *Build) compile() {
	b.ids, b.badID = make(map[string]*identity, 4*len(b.Sessions)), map[string]bool{}
	b.firstOf, b.limitsOf, b.failed = map[string]*Reading{}, map[string]note.Limits{}, map[string]*CheckLine{}
	b.near.joined = map[string]string{}
	readDonors(b)
	for _, d := range b.lent {
		if b.lentIn == b.Card.Currency && b.donor(d.Name) == nil {
			b.Donors = append(b.Donors, d)
		}
	}
	resolveStages(b)
	collectItems(b)
	declareParts(b)
	checkFasteners(b)
	checkOdometers(b)
	for _, s := range b.Sessions {
		for _, l := range s.Note.Lines {
			resolve := resolvers[l.Kind.Key]
			if resolve == nil {
				continue
			}
			checkNames(b, l)
			if !b.LeftOut(l) {
				resolve(b, s, l)
			}
		}
		for _, sc := range s.Note.Scans {
			b.Scans = append(b.Scans, &Scan{Session: s, Scan: sc})
		}
	}
	resolveItems(b)
	resolveSurcharges(b)
	resolveSale(b)
	offerNames(b)
	takingsOf(b)
	countLeftOut(b)
	b.near = nearNames{} // everything was told by now
}

// resolvers turn a line into what the build knows. Parts are declared before, since lines may name a later note's.
var resolvers = map[string]func(*Build, *Session, *note.Line){
	"time":       addWork,
	"cost":       addMoney,
	"credit":     addMoney,
	"sold":       addSale,
	"sale":       addSale,
	"checks":     addCheck,
	"readings":   addReading,
	"remaining":  addRemaining,
	"papers":     addPaper,
	"fasteners":  addTightening,
	"inspection": addInspection,
	"quotes":     (*Build).addQuote,
}

func addWork(b *Build, s *Session, l *note.Line) {
	w := &Work{Session: s, Line: l, Stage: b.stageOf(s, l, ""), Minutes: l.Head.(measure.Minutes), Private: s.Private || l.Has("private")}
	if hands, ok := note.Arg[int](l, "hands"); ok {
		w.Minutes *= measure.Minutes(hands)
	}
	b.Work = append(b.Work, w)
}

// addSession takes a note in, unless its date is bad or missing.
func (b *Build) addSession(n *note.Note, named nameDate) {
	date, ok := dateOf(b, n, named)
	if !ok {
		b.LinesLeftOut += len(n.Lines) + len(n.Items)
		return
	}
	s := &Session{Note: n, Path: n.File.Path, Date: date, Title: cmp.Or(n.Line("title").Typed(), n.Heading, date.String()), Private: isYes(n.Line("private"))}
	if l := n.Line("odometer"); l != nil {
		q := l.Head.(measure.Quantity)
		s.Odometer = &q
	}
	b.Sessions = append(b.Sessions, s)
}

func nearDate(name string) string {
	m := dateInName.FindStringSubmatch(name)
	if m == nil {
		return ""
	}
	date, bad := measure.ParseDate(fmt.Sprintf("%s-%02s-%02s", m[1], m[2], m[3]))
	if bad != nil {
		return ""
	}
	return "Write the date in the file's name as " + date.String() + "."
}

// dateInName matches a date that is written without its zeros or with other marks.
var dateInName = regexp.MustCompile(`^((?:19|20)\d\d)[-_. ]?(\d\d?)[-_. ]?(\d\d?)(?:\D|$)`)

func dateOf(b *Build, n *note.Note, named nameDate) (measure.Date, bool) {
	top := n.File.Span(0, 0)
	if n.Unread {
		return 0, false
	}
	if named.bad != nil {
		b.fault(source.Fault{Flaw: note.BadDate, Span: top, Word: path.Base(n.File.Path)[:10],
			Why: "the file's name begins with it, but " + named.bad.Why, Help: "Give the file the name of its day."})
		return 0, false
	}
	field := pick.First(n.Lines, func(l *note.Line) bool { return l.Kind.Key == "date" })
	switch {
	case field == nil && !named.has:
		if n.Field("date") == nil { // one that is there but empty was reported
			b.fault(source.Fault{Flaw: MissingDate, Span: note.Open(n.File).Fields[0].KeySpan, Help: nearDate(path.Base(n.File.Path))})
		}
		return 0, false
	case field == nil:
		return named.date, true
	case b.LeftOut(field):
		return 0, false
	}
	date := field.Head.(measure.Date)
	if named.has && date != named.date {
		b.reject(field, source.Fault{Flaw: DateDiffers, Span: field.HeadSpan(), Word: date.String(), Near: []string{named.date.String()}})
		return 0, false
	}
	return date, true
}

func newPage(n *note.Note) *Page {
	return &Page{Note: n, Path: n.File.Path, Title: n.Line("page").Typed(), Private: isYes(n.Line("private"))}
}

func isYes(l *note.Line) bool {
	if l == nil {
		return false
	}
	yes, _ := l.Head.(bool)
	return yes
}

func countLeftOut(b *Build) {
	b.LinesLeftOut += b.Card.Note.Lost + pick.Count(b.Card.Note.Lines, b.LeftOut)
	for _, s := range b.Sessions {
		b.LinesLeftOut += pick.Count(s.Note.Lines, b.LeftOut) + pick.Count(s.Note.Items, func(it *note.Item) bool { return b.LeftOut(it.Line) })
	}
}

// dateOfName reads YYYY-MM-DD at the beginning of a file name, if no digit follows.
func dateOfName(name string) nameDate {
	const form = "0000-00-00"
	if len(name) < len(form) {
		return nameDate{}
	}
	for i := range form {
		digit := name[i] >= '0' && name[i] <= '9'
		if digit != (form[i] == '0') || !digit && name[i] != '-' {
			return nameDate{}
		}
	}
	if rest := name[len(form):]; rest != "" && rest[0] >= '0' && rest[0] <= '9' {
		return nameDate{}
	}
	d, bad := measure.ParseDate(name[:len(form)])
	return nameDate{has: true, date: d, bad: bad}
}
