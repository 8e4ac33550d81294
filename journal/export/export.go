// Package export formats what was worked out as JSON and CSV. It computes nothing.
//
// The keys are a contract: more may come, none goes. Money is text, dates YYYY-MM-DD, absent null, lists never null.
package export

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"iter"
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"
	"guidecoat/journal/view"

	ics "github.com/arran4/golang-ical"
	"github.com/shopspring/decimal"
)

// Write writes JSON that people can read. "<" and "&" stay: this goes into no web page.
func Write(w io.Writer, value any) error {
	encoder := newEncoder(w)
	encoder.SetIndent("", "  ")
	return encoder.Encode(value)
}

// WriteCompact writes a value as JSON for programs alone, which is half the size.
func WriteCompact(w io.Writer, value any) error {
	var b bytes.Buffer
	if err := writeValue(&b, newEncoder(&b), value); err != nil {
		return err
	}
	b.WriteByte('\n')
	_, err := w.Write(b.Bytes())
	return err
}

func newEncoder(w io.Writer) *json.Encoder {
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	return encoder
}

// An Object is what JSON calls one: keys with what stands under them, in order.
type Object []field

type field struct {
	key   string
	value any
}

// MarshalJSON writes the keys in their order.
func (o Object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	err := o.write(&b, newEncoder(&b))
	return b.Bytes(), err
}

func (o Object) write(b *bytes.Buffer, encoder *json.Encoder) error {
	b.WriteByte('{')
	for i, f := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(`"` + f.key + `":`)
		if err := writeValue(b, encoder, f.value); err != nil {
			return err
		}
	}
	b.WriteByte('}')
	return nil
}

func writeValue(b *bytes.Buffer, encoder *json.Encoder, value any) error {
	switch v := value.(type) {
	case Object:
		if v == nil {
			b.WriteString("null")
			return nil
		}
		return v.write(b, encoder)
	case []Object:
		return writeList(b, encoder, slices.Values(v))
	case iter.Seq[Object]:
		return writeList(b, encoder, v)
	}
	err := encoder.Encode(value)
	b.Truncate(b.Len() - len("\n"))
	return err
}

func writeList(b *bytes.Buffer, encoder *json.Encoder, list iter.Seq[Object]) error {
	between := "["
	for o := range list {
		b.WriteString(between)
		if err := o.write(b, encoder); err != nil {
			return err
		}
		between = ","
	}
	b.WriteString(pick.Either(between == "[", "[]", "]"))
	return nil
}

// eachOf makes the objects of a long list while they are written, so that never all of them are there.
func eachOf[T any](list []T, of func(T) Object) iter.Seq[Object] {
	return func(yield func(Object) bool) {
		for _, x := range list {
			if !yield(of(x)) {
				return
			}
		}
	}
}

func Under(key string, objects []Object) Object { return Object{{key, objects}} }

func (f figures) named(key string, sums []fact.NamedSum) []Object {
	return pick.Map(sums, func(s fact.NamedSum) Object { return f.object(Object{{key, s.Name}, {"spent", s.Sum}}) })
}

// text is a text that may be absent: empty it is null.
type text string

// amount is money as it is written, which no spreadsheet takes for a formula.
type amount string

// figures formats what is shown in one currency.
type figures struct {
	currency     money.Currency
	whole, hours bool // more than the work is shown; and so is time
}

// object formats what stands in an object.
func (f figures) object(fields Object) Object {
	for i := range fields {
		fields[i].value = f.formatted(fields[i].value)
	}
	return fields
}

// formatted is a value as it is written. Nil, no date and empty text are null.
func (f figures) formatted(value any) any {
	switch v := value.(type) {
	case decimal.Decimal:
		return f.sum(v)
	case *decimal.Decimal:
		if v != nil {
			return f.sum(*v)
		}
	case fact.Three:
		return [3]amount{f.sum(v[0]), f.sum(v[1]), f.sum(v[2])}
	case *fact.Three:
		if v != nil {
			return f.formatted(*v)
		}
	case *measure.Quantity:
		if v != nil {
			return v.String()
		}
	case measure.Minutes:
		return int(v)
	case measure.Date:
		return f.formatted(text(v.String()))
	case text:
		if v != "" {
			return string(v)
		}
	case []string:
		if v != nil {
			return v
		}
		return []string{}
	default:
		return value
	}
	return nil
}

func (f figures) sum(d decimal.Decimal) amount { return amount(money.Format(d, f.currency)) }

// ofWhole leaves what only those see who see everything.
func (f figures) ofWhole(value any) any {
	if !f.whole {
		return nil
	}
	return f.formatted(value)
}

// minutes are null where time is not shown.
func (f figures) minutes(m measure.Minutes) any {
	if !f.hours {
		return nil
	}
	return int(m)
}

// inFolder says in which build of a garage something is; a build alone says nothing of it.
func inFolder(folder string, o Object) Object {
	if folder == "" {
		return o
	}
	return append(Object{{"build", folder}}, o...)
}

// HandoverOf is what `handover --json` prints.
func HandoverOf(requirements []view.RequirementView, notRecorded []speech.Phrase) Object {
	return figures{}.object(Object{
		{"cleared", view.AllMet(requirements)},
		{"requirements", pick.Map(requirements, func(r view.RequirementView) Object {
			stops := pick.Map(r.Stops, func(s view.StopView) Object { return Object{{"text", s.Words}, {"file", s.Note}, {"line", s.Line}} })
			return Object{{"requirement", r.Name}, {"met", r.Met}, {"stops", stops}}
		})},
		{"not_recorded", speech.All(notRecorded)},
	})
}

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
			}))
		}
	}
	return writeCSV(w, []string{"date", "session", "line", "stage", "category", "kind", "description", "part", "supplier", "amount", "currency", "to_garage"}, lines)
}

func StageTotalsOf(name string, v *view.View) []Object {
	f := figures{v.Currency, true, true}
	return pick.Map(v.Money.Costs.Stages, func(s fact.Stage) Object {
		total := f.object(append(Object{{"build", name}, {"currency", v.Currency.Code}}, f.stage(s)...))
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
