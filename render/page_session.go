package render

import (
	"html/template"
	"slices"
	"strings"

	"guidecoat/journal/view"
	"guidecoat/render/markdown"
)

type sessionPage struct {
	Frame
	Day        template.HTML
	Stage      string
	Private    bool
	Body       template.HTML
	Plates     []Plate
	Work       []WorkRow
	Money      []LineRow
	Parts      []PartRow
	Checks     []CheckRow
	Readings   []ReadingRow
	Scans      []ScanRow
	Opened     []SnagRow
	Cleared    []SnagRow
	Prev, Next *Teaser
	Note       template.HTML // the raw note
}

// A WorkRow is one line of time.
type WorkRow struct {
	Time, Words, Stage string
	Private            bool
}

// A PartRow is a part that changes state.
type PartRow struct {
	Link          template.HTML
	State, Remark string
}

func (s *site) sessionSheets() []sheet {
	var list []sheet
	for i, x := range s.sessions {
		at := s.paths.sessions[x.Name]
		list = append(list, sheet{at, func() (_ any, err error) {
			p := s.sessionPage(at, x)
			if i > 0 {
				p.Prev = s.neighbour(at, s.sessions[i-1])
			}
			if i+1 < len(s.sessions) {
				p.Next = s.neighbour(at, s.sessions[i+1])
			}
			p.Body, err = s.body(at, x.Body, p.Heading)
			return p, err
		}})
	}
	return list
}

// isEmpty tells whether the page of a session would hold nothing but its title. In
// the workshop it leads to the note.
func (s *site) isEmpty(x *view.SessionView) bool {
	if s.v.Audience == view.ForWorkshop || x.Minutes > 0 || x.Spent != nil || x.Odometer != "" || bare(x.Body) != "" ||
		len(x.Work)+len(x.Money)+len(x.Parts)+len(x.Checks)+len(x.Readings)+len(x.Scans)+len(x.Opened)+len(x.Cleared) > 0 {
		return false
	}
	if x.Body == nil {
		return true
	}
	body, err := s.md.Body(x.Body, markdown.Links{SkipHeading: x.Title})
	return err == nil && strings.TrimSpace(string(body)) == ""
}

func (s *site) neighbour(at string, x *view.SessionView) *Teaser {
	return &Teaser{Href: s.session(at, x.Name), Title: x.Title, Day: when(x.Date)}
}

func (s *site) sessionPage(at string, x *view.SessionView) *sessionPage {
	p := &sessionPage{Frame: s.frame(at, "session", x.Title, bare(x.Body)), Day: when(x.Date), Stage: title(x.Stage), Private: x.Private}
	p.Safety = x.Safety
	if x.Minutes > 0 {
		p.Plates = append(p.Plates, Plate{Label: "Work", Value: minutes(x.Minutes)})
	}
	if x.Spent != nil && !x.Spent.IsZero() {
		p.Plates = append(p.Plates, Plate{Label: "Spent", Value: minus(s.sum(*x.Spent))})
	}
	if x.Odometer != "" {
		p.Plates = append(p.Plates, Plate{Label: "Odometer", Value: distance(x.Odometer)})
	}
	for _, w := range x.Work {
		row := WorkRow{Time: minutes(w.Minutes), Words: w.Words, Private: w.Private}
		if w.Stage != x.Stage {
			row.Stage = w.Stage
		}
		p.Work = append(p.Work, row)
	}
	for _, l := range x.Money {
		p.Money = append(p.Money, s.lineRow(at, l))
	}
	for _, e := range x.Parts {
		p.Parts = append(p.Parts, PartRow{link(s.id(at, e.ID), e.Description), e.State, e.Remark})
	}
	for _, c := range x.Checks {
		p.Checks = append(p.Checks, s.checkRow(at, c))
	}
	for _, r := range x.Readings {
		row := s.readingRow(r)
		row.Link = link(s.measured.to(at, seriesID(r.Name)), title(said(r.Name)))
		p.Readings = append(p.Readings, row)
	}
	for _, sc := range x.Scans {
		row := s.scanRow(at, sc)
		row.Link = link(s.measured.to(at, unitID(sc.Unit)), title(said(sc.Unit)))
		p.Scans = append(p.Scans, row)
	}
	p.Opened, p.Cleared = s.snagRows(at, x.Opened, x.Name), s.snagRows(at, x.Cleared, x.Name)
	for i, o := range x.Opened {
		p.Opened[i].SameDay = slices.Contains(x.Cleared, o)
	}
	if to := s.paths.notes[x.Path]; to != "" {
		p.Note = link(root(at)+to, "The note as typed")
	}
	return p
}
