package press

import (
	"reflect"
	"strings"
	"text/template/parse"
)

// An expr is a value that a template names. Its type is known beforehand.
type expr struct {
	typ reflect.Type
	get func(r *run, dot reflect.Value) reflect.Value
}

// A test is a value of which only the truth counts.
type test func(r *run, dot reflect.Value) bool

var (
	intType  = reflect.TypeFor[int]()
	boolType = reflect.TypeFor[bool]()
)

func constant(v any) expr {
	x := reflect.ValueOf(v)
	return expr{x.Type(), func(*run, reflect.Value) reflect.Value { return x }}
}

// single is the value of a pipeline without pipes, whatever is declared with it.
func (s *scope) single(pipe *parse.PipeNode, dot reflect.Type) expr {
	if pipe.IsAssign || len(pipe.Cmds) != 1 {
		refuse("%s", pipe)
	}
	return s.command(pipe.Cmds[0], dot)
}

// pipe is the value of a pipeline, kept in the variable that is declared with it.
func (s *scope) pipe(pipe *parse.PipeNode, dot reflect.Type) expr {
	x := s.single(pipe, dot)
	if len(pipe.Decl) == 0 {
		return x
	}
	slot := s.declare(pipe.Decl[0].Ident[0], x.typ)
	return expr{x.typ, func(r *run, dot reflect.Value) reflect.Value {
		v := x.get(r, dot)
		r.vars[r.base+slot] = v
		return v
	}}
}

func (s *scope) command(c *parse.CommandNode, dot reflect.Type) expr {
	if f, ok := c.Args[0].(*parse.IdentifierNode); ok {
		return s.function(f.Ident, c.Args[1:], dot)
	}
	if len(c.Args) > 1 {
		refuse("%s", c)
	}
	return s.arg(c.Args[0], dot)
}

func (s *scope) arg(n parse.Node, dot reflect.Type) expr {
	here := expr{dot, func(_ *run, dot reflect.Value) reflect.Value { return dot }}
	switch n := n.(type) {
	case *parse.DotNode:
		return here.field(nil)
	case *parse.FieldNode:
		return here.field(n.Ident)
	case *parse.VariableNode:
		return s.variable(n.Ident[0]).field(n.Ident[1:])
	case *parse.PipeNode:
		if len(n.Decl) == 0 {
			return s.single(n, dot)
		}
	case *parse.StringNode:
		return constant(n.Text)
	case *parse.BoolNode:
		return constant(n.True)
	case *parse.NumberNode:
		if i := int(n.Int64); n.IsInt && int64(i) == n.Int64 && !n.IsComplex && !strings.ContainsAny(n.Text, ".eEpP") {
			return constant(i)
		}
	}
	refuse("%s", n)
	return expr{}
}

func (s *scope) variable(name string) expr {
	for i := len(s.vars) - 1; i >= 0; i-- {
		if s.vars[i].name == name {
			return expr{s.vars[i].typ, func(r *run, _ reflect.Value) reflect.Value { return r.vars[r.base+i] }}
		}
	}
	refuse("%s is not known here", name)
	return expr{}
}

// A hop leads from a value to its field, or where index is -1 to what it points to.
type hop int

const deref hop = -1

// field is the value at the end of a chain of names, which may be empty.
func (x expr) field(names []string) expr {
	if x.typ == nil {
		refuse("dot where there is none")
	}
	var hops []hop
	t := x.typ
	point := func() {
		for ; t.Kind() == reflect.Pointer; t = t.Elem() {
			hops = append(hops, deref)
		}
	}
	for _, name := range names {
		point()
		if t.Kind() != reflect.Struct {
			refuse("field %s of %s", name, t)
		}
		if _, ok := reflect.PointerTo(t).MethodByName(name); ok {
			refuse("method %s of %s", name, t)
		}
		f, ok := t.FieldByName(name)
		if !ok || !f.IsExported() {
			refuse("field %s of %s", name, t)
		}
		for _, i := range f.Index {
			point() // to what is embedded
			hops, t = append(hops, hop(i)), t.Field(i).Type
		}
	}
	if len(hops) == 0 {
		return x
	}
	return expr{t, func(r *run, dot reflect.Value) reflect.Value {
		v := x.get(r, dot)
		for _, h := range hops {
			switch {
			case h >= 0:
				v = v.Field(int(h))
			case v.IsNil():
				panic(trouble{})
			default:
				v = v.Elem()
			}
		}
		return v
	}}
}

func (s *scope) function(name string, args []parse.Node, dot reflect.Type) expr {
	if name == "len" && len(args) == 1 {
		x := s.arg(args[0], dot)
		if k := x.typ.Kind(); k != reflect.Slice && k != reflect.Array && k != reflect.String && k != reflect.Map {
			refuse("len of %s", x.typ)
		}
		return expr{intType, func(r *run, dot reflect.Value) reflect.Value { return reflect.ValueOf(x.get(r, dot).Len()) }}
	}
	if t := s.question(name, args, dot); t != nil && name != "and" && name != "or" {
		return expr{boolType, func(r *run, dot reflect.Value) reflect.Value { return reflect.ValueOf(t(r, dot)) }}
	}
	refuse("function %s", name)
	return expr{}
}

// test is the truth of a pipeline.
func (s *scope) test(pipe *parse.PipeNode, dot reflect.Type) test {
	if len(pipe.Decl) == 0 && len(pipe.Cmds) == 1 {
		if f, ok := pipe.Cmds[0].Args[0].(*parse.IdentifierNode); ok {
			if t := s.question(f.Ident, pipe.Cmds[0].Args[1:], dot); t != nil {
				return t
			}
		}
	}
	return s.pipe(pipe, dot).truth()
}

// question is one of the functions whose answer is yes or no, or that may be taken so.
func (s *scope) question(name string, args []parse.Node, dot reflect.Type) test {
	switch {
	case name == "not" && len(args) == 1:
		t := s.argTest(args[0], dot)
		return func(r *run, dot reflect.Value) bool { return !t(r, dot) }
	case name == "eq" && len(args) >= 2:
		return s.eq(args, dot)
	case (name == "and" || name == "or") && len(args) >= 1:
		ends := name == "or" // the truth that settles it
		var list []test
		for _, a := range args {
			list = append(list, s.argTest(a, dot))
		}
		return func(r *run, dot reflect.Value) bool {
			for _, t := range list {
				if t(r, dot) == ends {
					return ends
				}
			}
			return !ends
		}
	}
	return nil
}

func (s *scope) argTest(n parse.Node, dot reflect.Type) test {
	if p, ok := n.(*parse.PipeNode); ok && len(p.Decl) == 0 {
		return s.test(p, dot)
	}
	return s.arg(n, dot).truth()
}

// eq asks whether the first is one of the others. All are looked at in any case:
// there may be something wrong with the last.
func (s *scope) eq(args []parse.Node, dot reflect.Type) test {
	first := s.arg(args[0], dot)
	var others []expr
	for _, a := range args[1:] {
		x := s.arg(a, dot)
		if family(x.typ) != family(first.typ) {
			refuse("eq of %s and %s", first.typ, x.typ)
		}
		others = append(others, x)
	}
	equal := equals[family(first.typ)]
	if equal == nil {
		refuse("eq of %s", first.typ)
	}
	return func(r *run, dot reflect.Value) (found bool) {
		v := first.get(r, dot)
		for _, x := range others {
			found = equal(v, x.get(r, dot)) || found
		}
		return found
	}
}

// family names kinds of the same nature by one of them.
func family(t reflect.Type) reflect.Kind {
	switch k := t.Kind(); k {
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return reflect.Int
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return reflect.Uint
	case reflect.Float32, reflect.Float64:
		return reflect.Float64
	case reflect.Array, reflect.Map:
		return reflect.Slice
	default:
		return k
	}
}

var equals = map[reflect.Kind]func(a, b reflect.Value) bool{
	reflect.String:  func(a, b reflect.Value) bool { return a.String() == b.String() },
	reflect.Bool:    func(a, b reflect.Value) bool { return a.Bool() == b.Bool() },
	reflect.Int:     func(a, b reflect.Value) bool { return a.Int() == b.Int() },
	reflect.Uint:    func(a, b reflect.Value) bool { return a.Uint() == b.Uint() },
	reflect.Float64: func(a, b reflect.Value) bool { return a.Float() == b.Float() },
}

var truths = map[reflect.Kind]func(v reflect.Value) bool{
	reflect.String:  func(v reflect.Value) bool { return v.Len() > 0 },
	reflect.Slice:   func(v reflect.Value) bool { return v.Len() > 0 },
	reflect.Bool:    func(v reflect.Value) bool { return v.Bool() },
	reflect.Int:     func(v reflect.Value) bool { return v.Int() != 0 },
	reflect.Uint:    func(v reflect.Value) bool { return v.Uint() != 0 },
	reflect.Float64: func(v reflect.Value) bool { return v.Float() != 0 },
	reflect.Pointer: func(v reflect.Value) bool { return !v.IsNil() },
	reflect.Struct:  func(reflect.Value) bool { return true },
}

// truthOf says what makes values of that type true.
func truthOf(t reflect.Type) func(reflect.Value) bool {
	truth := truths[family(t)]
	if truth == nil {
		refuse("the truth of %s", t)
	}
	return truth
}

func (x expr) truth() test {
	truth := truthOf(x.typ)
	return func(r *run, dot reflect.Value) bool { return truth(x.get(r, dot)) }
}
