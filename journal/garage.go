package journal

import (
	"cmp"
	"fmt"
	"io/fs"
	"path"
	"slices"

	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

const (
	ToolNeedsOver source.Flaw = "tool-needs-over"
	ToolNeedsOn   source.Flaw = "tool-needs-on"
)

// A Garage is several builds side by side, and the tools they share.
type Garage struct {
	Note     *note.Note
	Name     string
	Currency money.Currency
	Builds   []*Build // by path
	Tools    []*Tool
	Donors   []*Donor
	// Faults are those of garage.md alone; each build has its own.
	Faults       []source.Fault
	LinesLeftOut int
}

// A Tool is bought once and used for several builds.
type Tool struct {
	Line  *note.Line
	Name  string
	Price decimal.Decimal
	Over  int // builds
	On    measure.Date
}

// IsGarage tells whether the root of fsys is a garage.
func IsGarage(fsys fs.FS) bool { return exists(fsys, GarageName) }

// ReadGarage reads garage.md and every build below it; each has the Faults of its notes.
func ReadGarage(fsys fs.FS) (*Garage, error) { return (*Reader)(nil).ReadGarage(fsys) }

func (r *Reader) ReadGarage(fsys fs.FS) (*Garage, error) {
	g := &Garage{}
	data, err := readText(fsys, GarageName)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", GarageName, err)
	}
	g.Note = note.Open(source.NewFile(GarageName, data))
	g.Currency = cardCurrency(g.Note)
	g.Note.Read(note.Garage, g.Currency)
	g.readCard()
	dirs, lost, err := buildsBelow(fsys, ".")
	if err != nil {
		return nil, err
	}
	g.Faults = append(g.Faults, lost...)
	for _, dir := range dirs {
		b, err := r.build(dir).readBuild(fsys, dir, &Build{inGarage: dir, lent: g.Donors, lentIn: g.Currency})
		if err != nil {
			b = cardOnly(fsys, dir, err)
		}
		g.Builds = append(g.Builds, b)
	}
	g.partExchanges()
	return g, nil
}

// cardOnly is a build whose folder cannot be listed: it hides no other build of the garage.
func cardOnly(fsys fs.FS, dir string, err error) *Build {
	b := ReadCard(fsys, dir)
	b.fault(source.Fault{Flaw: Unreadable, Span: source.NewFile(dir, nil).Span(0, 0), Word: dir, Why: reason(err)})
	return b
}

// buildsBelow lists the folders below dir that have a build.md, and the notes lost in published ones beside them.
func buildsBelow(fsys fs.FS, dir string) (list []string, lost []source.Fault, err error) {
	f, err := scan(fsys, dir)
	if err != nil {
		return nil, nil, err
	}
	list = f.children
	for _, child := range f.children {
		if below, _, err := buildsBelow(fsys, child); err == nil { // otherwise reading the child tells
			list = append(list, below...)
		}
	}
	slices.SortFunc(list, comparePaths)
	return list, f.lost(), nil
}

// readCard reads garage.md as a card: it has a card's currency, tax and rates.
func (g *Garage) readCard() {
	b := &Build{Path: "."}
	b.Card = &Card{Note: g.Note, Currency: g.Currency, Rates: map[string]decimal.Decimal{}}
	b.Faults = g.Note.Faults
	rejectRepeats(b, g.Note)
	for _, l := range g.Note.Lines {
		if set := cardLines[l.Kind.Key]; set != nil && !b.LeftOut(l) {
			set(b, b.Card, l)
		}
	}
	g.Name = g.Note.Line("garage").Typed()
	requireKeys(b, g.Note, "garage")
	readDonors(b)
	g.Donors = b.Donors
	for _, l := range g.Note.Lines {
		if l.Kind.Key == "tools" && !b.LeftOut(l) {
			g.addTool(b, l)
		}
	}
	g.LinesLeftOut = g.Note.Lost + pick.Count(g.Note.Lines, b.LeftOut)
	g.Faults = b.Faults
}

func (g *Garage) addTool(b *Build, l *note.Line) {
	t := &Tool{Line: l, Name: l.Words().S}
	var ok bool
	if t.Over, ok = note.Arg[int](l, "over"); !ok {
		b.reject(l, source.Fault{Flaw: ToolNeedsOver, Span: l.HeadSpan(), Word: l.Words().S})
	}
	if t.On, ok = note.Arg[measure.Date](l, "on"); !ok {
		b.reject(l, source.Fault{Flaw: ToolNeedsOn, Span: l.HeadSpan(), Word: l.Words().S})
	}
	sum, ok := b.workOut(l, false)
	if !ok || b.LeftOut(l) {
		return
	}
	t.Price = sum.Whole
	g.Tools = append(g.Tools, t)
}

// Title is the name to call a build by: its card's, else its folder's.
func (b *Build) Title() string {
	return cmp.Or(b.Card.Name, path.Base(b.Path))
}

// partExchanges compares what was taken in part exchange with what the build it went into says it cost.
func (g *Garage) partExchanges() {
	folders := map[string]*Build{}
	var names []string
	for _, b := range g.Builds {
		folders[b.Path], names = b, append(names, b.Path)
	}
	for _, b := range g.Builds {
		for _, s := range b.Sales {
			if s.Into == "" {
				continue
			}
			at, into := s.Line.Clause("into").Arg.Whole(), folders[s.Into]
			if into == nil {
				b.fault(source.Fault{Flaw: PartExchange, Span: at, Word: s.Into, Near: names})
				continue
			}
			paid, same := decimal.Zero, into.Card.Currency != b.Card.Currency
			for _, m := range into.Money {
				if !m.Credit && m.Category == "vehicle" {
					paid, same = paid.Add(m.Whole), same || m.Whole.Equal(s.Price)
				}
			}
			if !same && !paid.Equal(s.Price) {
				b.fault(source.Fault{Flaw: PartExchange, Span: at, Word: s.Into, Why: into.ShowMoney(paid), Help: b.ShowMoney(s.Price)})
			}
		}
	}
}

// ReadBuildIn reads a build in a folder of that name, with the donors that the garage above shares with it.
func (r *Reader) ReadBuildIn(fsys fs.FS, name string, garage func() (*Garage, error)) (*Build, error) {
	b, err := r.ReadBuild(fsys, ".")
	if err != nil || !b.lacksDonor() {
		return b, err
	}
	g, err := garage()
	if err != nil || g == nil || len(g.Donors) == 0 {
		return b, err
	}
	lent := slices.Clone(g.Donors)
	for _, twin := range g.Builds {
		for i := range lent {
			if twin.Path == name {
				lent[i] = lent[i].without(twin)
			}
		}
	}
	return r.readBuild(fsys, ".", &Build{inGarage: name, lent: lent, lentIn: g.Currency})
}
