package press

import (
	"reflect"
	"strconv"
	"text/template/parse"
)

// A printer appends a value, escaped.
type printer func(out []byte, v reflect.Value) []byte

// printerOf is the printer of values of that type through the escapers that
// html/template has put behind them.
func printerOf(t reflect.Type, cmds []*parse.CommandNode) printer {
	if len(cmds) == 1 && cmds[0].String() == "_html_template_jsvalescaper" {
		return inScript
	}
	if reflect.PointerTo(t).NumMethod() > 0 {
		refuse("printing %s, which may have a way of its own", t)
	}
	filters, marks := escaping(t, cmds)
	finish := func(out []byte, s string) []byte {
		for _, f := range filters {
			s = f(s)
		}
		return marks.append(out, s)
	}
	// What numbers but floats are made of passes every escaper unchanged.
	switch family(t) {
	case reflect.String:
		return func(out []byte, v reflect.Value) []byte { return finish(out, v.String()) }
	case reflect.Bool:
		return func(out []byte, v reflect.Value) []byte { return strconv.AppendBool(out, v.Bool()) }
	case reflect.Int:
		return func(out []byte, v reflect.Value) []byte { return strconv.AppendInt(out, v.Int(), 10) }
	case reflect.Uint:
		return func(out []byte, v reflect.Value) []byte { return strconv.AppendUint(out, v.Uint(), 10) }
	case reflect.Float64:
		return func(out []byte, v reflect.Value) []byte {
			return finish(out, strconv.FormatFloat(v.Float(), 'g', -1, t.Bits()))
		}
	}
	refuse("printing %s", t)
	return nil
}

// escaping is what the escapers do to a value of that type: filters, and at last
// the marks that are replaced.
func escaping(t reflect.Type, cmds []*parse.CommandNode) (filters []func(string) string, m *marks) {
	if len(cmds) == 0 {
		refuse("a value without an escaper")
	}
	for i, c := range cmds {
		f, ok := c.Args[0].(*parse.IdentifierNode)
		if !ok || len(c.Args) > 1 {
			refuse("%s", c)
		}
		todo, ok := escapers[f.Ident][t]
		if !ok {
			todo, ok = escapers[f.Ident][plain]
		}
		if !ok || todo.marks != nil && i < len(cmds)-1 {
			refuse("%s of %s", f.Ident, t)
		}
		if todo.filter != nil {
			filters = append(filters, todo.filter)
		}
		m, t = todo.marks, plain // an escaper makes plain text of everything
	}
	return filters, m
}
