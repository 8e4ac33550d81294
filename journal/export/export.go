// Package export formats what was worked out as JSON and CSV. It computes nothing.
//
// The keys are a contract: more may come, none goes. Money is text, dates YYYY-MM-DD, absent null, lists never null.
package export

import (
	"bytes"
	"encoding/json"
	"io"
	"iter"
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"
	"guidecoat/journal/view"

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

func objectsOf[T any](list []T, of func(T) Object) []Object {
	objects := make([]Object, len(list))
	for i, x := range list {
		objects[i] = of(x)
	}
	return objects
}

func Under(key string, objects []Object) Object { return Object{{key, append([]Object{}, objects...)}} }

func (f figures) named(key string, sums []fact.NamedSum) []Object {
	return objectsOf(sums, func(s fact.NamedSum) Object { return f.object(field{key, s.Name}, field{"spent", s.Sum}) })
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
func (f figures) object(fields ...field) Object {
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
		{"requirements", objectsOf(requirements, func(r view.RequirementView) Object {
			stops := objectsOf(r.Stops, func(s view.StopView) Object { return Object{{"text", s.Words}, {"file", s.Note}, {"line", s.Line}} })
			return Object{{"requirement", r.Name}, {"met", r.Met}, {"stops", stops}}
		})},
		{"not_recorded", speech.All(notRecorded)},
	}...)
}
