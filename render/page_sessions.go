package render

import (
	"html/template"

	"guidecoat/journal/measure"
	"guidecoat/journal/view"
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

// bindSessions binds them by year. The newest stand in front, so that an old one
// stays on its page.
func (s *site) bindSessions() {
	s.list = bind(binding{front: "sessions/index.html", taken: s.paths.taken, newest: true}, s.v.Sessions, func(x *view.SessionView) entry {
		return entry{shelf: year(x.Date), name: year(x.Date), weight: 1}
	})
}

func (s *site) sessionsSheets() []sheet {
	return s.list.sheets(len(s.v.Sessions) > 0, func(v volume) (any, error) {
		all, list := s.v.Sessions, s.list.in(v)
		lead := count(len(all), "session") + ", " + span(all[0].Date, all[len(all)-1].Date)
		at := v.path
		p := sessionsPage{Frame: s.frame(at, "sessions", v.heading("Sessions"), "Every session of "+s.v.Name+": "+lead), Lead: lead}
		p.Volumes = s.list.nav(at)
		p.Chart = s.hoursChart(list[0].Date, list[len(list)-1].Date)
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

func (s *site) month(at string, list []*view.SessionView) Month {
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
		m.Sum += ", " + minutes(worked)
	}
	return m
}
