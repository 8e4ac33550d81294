package export

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"

	ics "github.com/arran4/golang-ical"
)

// writeCSV writes a header and a row for each object, by RFC 4180 with CRLF.
func writeCSV(w io.Writer, keys []string, objects []Object) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	out.Write(keys) // keeps the first error for Error
	row := make([]string, len(keys))
	for _, o := range objects {
		cells := make(map[string]any, len(o))
		for _, f := range o {
			cells[f.key] = f.value
		}
		for i, key := range keys {
			row[i] = cell(cells[key])
		}
		out.Write(row)
	}
	out.Flush()
	return out.Error()
}

func cell(value any) string {
	switch v := value.(type) {
	case nil:
		return ""
	case string:
		return safe(v)
	}
	return fmt.Sprint(value)
}

// safe puts an apostrophe before what a spreadsheet would run as a formula.
func safe(s string) string {
	return pick.Either(s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])), "'"+s, s)
}

// WriteCSV writes the lines of money as CSV. Its error is the writer's.
func WriteCSV(w io.Writer, views ...*view.View) error {
	var lines []Object
	for _, v := range views {
		if v.Money == nil {
			continue
		}
		f := figures{v.Currency, true, true}
		for _, l := range v.Money.Lines {
			kind := pick.Either(l.Credit, "credit", "cost")
			lines = append(lines, f.object(Object{
				{"date", l.Date}, {"session", l.Note}, {"line", l.Line}, {"stage", cmp.Or(l.Stage, fact.Unstaged)}, {"category", l.Category}, {"kind", kind},
				{"description", l.Description}, {"part", l.Part}, {"supplier", l.Supplier}, {"amount", l.Amount}, {"currency", v.Currency.Code}, {"to_garage", l.Garage},
			}...))
		}
	}
	return writeCSV(w, []string{"date", "session", "line", "stage", "category", "kind", "description", "part", "supplier", "amount", "currency", "to_garage"}, lines)
}

func StageTotalsOf(name string, v *view.View) []Object {
	f := figures{v.Currency, true, true}
	return objectsOf(v.Money.Costs.Stages, func(s fact.Stage) Object {
		total := f.object(append(Object{{"build", name}, {"currency", v.Currency.Code}}, f.stage(s)...)...)
		for i, name := range []string{"_best", "_likely", "_worst"} {
			if s.Budget != nil { // none is not zero
				total = append(total, field{"budget" + name, f.sum(s.Budget[i])})
			}
			total = append(total, field{"remaining" + name, f.sum(s.Remaining[i])})
		}
		return total
	})
}

// WriteStagesCSV writes totals of stages as CSV. Its error is the writer's.
func WriteStagesCSV(w io.Writer, totals []Object) error {
	return writeCSV(w, []string{"build", "stage", "spent", "credits", "net", "minutes", "budget_best", "budget_likely", "budget_worst",
		"remaining_best", "remaining_likely", "remaining_worst", "overrun", "currency"}, totals)
}

// HasCalendar tells whether there is a day to be reminded of: a calendar needs one.
func HasCalendar(views []*view.View) bool {
	return slices.ContainsFunc(views, func(v *view.View) bool { return len(v.Calendar) > 0 })
}

// WriteCalendar writes days as iCalendar (RFC 5545). UIDs stay, so that a second import changes the first's.
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
