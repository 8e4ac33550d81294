package export

import (
	"cmp"
	"fmt"
	"io"
	"slices"

	"guidecoat/journal/note"
	"guidecoat/journal/view"

	ics "github.com/arran4/golang-ical"
)

// HasCalendar tells whether there is a day to be reminded of: a calendar needs one.
func HasCalendar(views []*view.View) bool {
	return slices.ContainsFunc(views, func(v *view.View) bool { return len(v.Calendar) > 0 })
}

// WriteCalendar writes the days of some builds as iCalendar (RFC 5545). An entry keeps its
// UID, made of its id and the build's name, so that a second import changes what the first
// has brought. Its error is the writer's.
func WriteCalendar(w io.Writer, views ...*view.View) error {
	cal := ics.NewCalendar()
	cal.SetProductId("-//guidecoat//workshop notes//EN")
	cal.SetCalscale("GREGORIAN")
	cal.SetMethod(ics.MethodPublish)
	builds := map[string]int{}
	for _, v := range views {
		name := cmp.Or(note.SuggestID(v.Name), note.SuggestID(v.BuildPath), "build")
		if builds[name]++; builds[name] > 1 {
			name = fmt.Sprintf("%s-%d", name, builds[name])
		}
		for _, a := range v.Calendar {
			words := cmp.Or(v.Name, v.BuildPath) + ": " + a.Words
			event := cal.AddEvent(a.ID + "@" + name + ".guidecoat")
			event.SetDtStampTime(a.Noted.Time())
			event.SetAllDayStartAt(a.Day.Time())
			event.SetAllDayEndAt(a.Day.AddDays(1).Time())
			event.SetSummary(words)
			event.SetTimeTransparency(ics.TransparencyTransparent) // a day to know of is no day that is taken
			if a.Warn > 0 {
				alarm := event.AddAlarm()
				alarm.SetAction(ics.ActionDisplay)
				alarm.SetTrigger(fmt.Sprintf("-P%dD", a.Warn))
				alarm.SetDescription(words)
			}
		}
	}
	return cal.SerializeTo(w, ics.WithNewLine("\r\n"))
}
