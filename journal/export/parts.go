package export

import (
	"io"
	"strconv"

	"guidecoat/journal/view"
)

// Parts is what `parts --json` prints.
type Parts struct {
	Parts  []Part  `json:"parts"`
	Donors []Donor `json:"donors,omitempty"`
	Quotes []Quote `json:"quotes,omitzero"` // of what is to be bought
}

// A Quote is what somebody asks for a part, brought into the yard.
type Quote struct {
	Build     *string `json:"build,omitempty"` // in a garage only: the build's folder
	Part      string  `json:"part"`
	From      *string `json:"from"`
	Price     *string `json:"price"`
	Freight   *string `json:"freight"`
	Duty      *string `json:"duty"`
	Tax       *string `json:"import_tax"`
	Clearance *string `json:"clearance"`
	Landed    *string `json:"landed"` // all of them
	WaitDays  *int    `json:"wait_days"`
	Holding   *string `json:"holding"` // what keeping the vehicle costs meanwhile
	Until     *string `json:"until"`
	Expired   bool    `json:"expired"`
	Best      bool    `json:"best"`
}

// AddQuotes adds the quotes of a view.
func (l *Parts) AddQuotes(v *view.View, folder string) {
	f := figures{v.Currency, true, true}
	l.Quotes = list(l.Quotes)
	for _, q := range v.Quotes {
		l.Quotes = append(l.Quotes, Quote{text(folder), q.Part, text(q.From), f.orNull(&q.Price), f.orNull(&q.Freight), f.orNull(&q.Duty), f.orNull(&q.Tax),
			f.orNull(&q.Clearance), f.orNull(&q.Landed), q.Wait, f.orNull(q.Holding), text(q.Until.String()), q.Expired, q.Best})
	}
}

// A Donor is a vehicle that parts come from. What it still holds stays in the garage.
type Donor struct {
	Build    *string `json:"build,omitempty"` // in a garage only: the build's folder
	Donor    string  `json:"donor"`
	Category *string `json:"category"`
	Price    *string `json:"price"`  // less what came back for it
	Parts    int     `json:"parts"`  // taken by this build
	Spread   *string `json:"spread"` // over parts
	Holds    *string `json:"holds"`  // what is still in it is worth
	Left     *string `json:"left"`   // in the garage
}

// AddDonors adds the donors of a view.
func (l *Parts) AddDonors(v *view.View, folder string) {
	f := figures{v.Currency, true, true}
	for _, d := range v.Donors {
		l.Donors = append(l.Donors, Donor{text(folder), d.Name, text(d.Category), f.orNull(d.Price), d.Parts, f.orNull(d.Spread), f.orNull(d.Holds), f.orNull(d.Left)})
	}
}

// A Part is a part as it stood. File and line are where its state was written.
type Part struct {
	Build       *string    `json:"build,omitempty"` // in a garage only: the build's folder
	ID          string     `json:"id"`
	Description string     `json:"description"`
	State       string     `json:"state"`
	System      *string    `json:"system"`
	Stage       *string    `json:"stage"`
	Condition   *string    `json:"condition"`
	Origin      *string    `json:"origin"`
	Number      *string    `json:"number"`
	Estimate    *[3]string `json:"estimate"` // best, likely, worst
	Paid        *string    `json:"paid"`
	Supplier    *string    `json:"supplier"`
	Donor       *string    `json:"donor"`
	Worth       *string    `json:"worth"` // by which it bears a share of its donor's price
	Due         *string    `json:"due"`
	Late        bool       `json:"late"`
	File        string     `json:"file"`
	Line        int        `json:"line"`
}

// NewParts returns the list of no parts.
func NewParts() *Parts { return &Parts{Parts: []Part{}} }

// Add adds a part of a view. Folder is that of the build in a garage, otherwise "".
func (l *Parts) Add(v *view.View, p *view.PartView, folder string) {
	f := figures{v.Currency, true, true}
	l.Parts = append(l.Parts, Part{
		Build: text(folder), ID: p.ID, Description: p.Description, State: p.State,
		System: text(p.System), Stage: text(p.Stage), Condition: text(p.Condition), Origin: text(p.Origin), Number: text(p.Number),
		Estimate: f.three(p.Estimate), Paid: f.orNull(p.Paid), Supplier: text(p.Supplier), Donor: text(p.Donor), Worth: f.orNull(p.Worth), Due: text(p.Due.String()), Late: p.Late,
		File: p.Note, Line: p.Line,
	})
}

// partColumns are the columns of the parts' CSV.
var partColumns = []column[Part]{
	{"id", func(p Part) string { return p.ID }},
	{"description", func(p Part) string { return safe(p.Description) }},
	{"state", func(p Part) string { return p.State }},
	{"system", func(p Part) string { return cell(p.System) }},
	{"stage", func(p Part) string { return safe(cell(p.Stage)) }},
	{"condition", func(p Part) string { return cell(p.Condition) }},
	{"origin", func(p Part) string { return cell(p.Origin) }},
	{"paid", func(p Part) string { return cell(p.Paid) }},
	{"due", func(p Part) string { return cell(p.Due) }},
	{"late", func(p Part) string { return strconv.FormatBool(p.Late) }},
	{"supplier", func(p Part) string { return safe(cell(p.Supplier)) }},
	{"file", func(p Part) string { return safe(p.File) }},
	{"line", func(p Part) string { return strconv.Itoa(p.Line) }},
}

// WriteCSV writes the parts as CSV. Its error is the writer's.
func (l *Parts) WriteCSV(w io.Writer) error { return writeCSV(w, partColumns, l.Parts) }

func cell(s *string) string {
	if s == nil {
		return ""
	}
	return *s
}
