package render

import (
	"html/template"

	"guidecoat/journal"
	"guidecoat/journal/measure"
)

type sessionsPage struct {
	Frame
	Lead   string
	Chart  *Chart // hours by week
	Months []Month
}

// A Month is the sessions of one month, newest last.
type Month struct {
	ID, Name string
	Sum      string
	Rows     []SessionRow
}

// A SessionRow is one session in their list.
type SessionRow struct {
	Link    template.HTML
	ISO     string
	Date    string // of the month
	Weekday string
	Stage   string
	Time    string
	Spent   string
	Opened  string
	Cleared string
	Private bool
}

func (s *site) sessionsSheets() []sheet {
	const at = "sessions/index.html"
	return one(len(s.v.Sessions) > 0, at, func() (any, error) {
		list := s.v.Sessions
		lead := count(len(list), "session") + ", " + span(list[0].Date, list[len(list)-1].Date)
		p := sessionsPage{Frame: s.frame(at, "sessions", "Sessions", "Every session of "+s.v.Name+": "+lead), Lead: lead}
		p.Chart = s.hoursChart()
		for begin := 0; begin < len(list); {
			end := begin + 1
			for end < len(list) && monthID(list[end].Date) == monthID(list[begin].Date) {
				end++
			}
			p.Months = append(p.Months, s.month(at, list[begin:end]))
			begin = end
		}
		return p, nil
	})
}

func (s *site) month(at string, list []*journal.SessionView) Month {
	m := Month{ID: monthID(list[0].Date), Name: month(list[0].Date)}
	var worked measure.Minutes
	for _, x := range list {
		worked += x.Minutes
		row := SessionRow{Link: link(s.session(at, x.Name), x.Title), ISO: x.Date.String(), Date: x.Date.Time().Format("2"), Weekday: x.Date.Time().Format("Mon"),
			Stage: title(x.Stage), Private: x.Private}
		if x.Minutes > 0 {
			row.Time = minutes(x.Minutes)
		}
		if x.Spent != nil && !x.Spent.IsZero() {
			row.Spent = minus(s.sum(*x.Spent))
		}
		if n := len(x.Opened); n > 0 {
			row.Opened = grouped(n) + nbsp + "opened"
		}
		if n := len(x.Cleared); n > 0 {
			row.Cleared = grouped(n) + nbsp + "cleared"
		}
		m.Rows = append(m.Rows, row)
	}
	m.Sum = count(len(list), "session")
	if worked > 0 {
		m.Sum += ", " + wholeHours(worked)
	}
	return m
}
