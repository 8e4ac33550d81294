package render

import (
	"fmt"
	"io/fs"
	"reflect"
	"slices"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

// Everything in the data of a page counts: no leaf can change without another digest.
func TestDigestOfEveryLeaf(t *testing.T) {
	b, err := journal.ReadBuild(example(), ".")
	if err != nil {
		t.Fatal(err)
	}
	read := func(p string) ([]byte, error) { return fs.ReadFile(example(), p) }
	s, err := prepare(view.Of(state.At(b, 0, today), view.ForWorkshop), Options{Theme: theme(t), Read: read})
	if err != nil {
		t.Fatal(err)
	}
	session := s.paths.sessions[s.v.Sessions[3].Name]
	leaves := 0
	for _, page := range s.todo {
		if !slices.Contains([]string{session, "index.html", "snags.html", "money.html"}, page.path) {
			continue
		}
		data, err := page.data()
		if err != nil {
			t.Fatal(err)
		}
		copied := reflect.New(reflect.TypeOf(data)).Elem()
		copied.Set(reflect.ValueOf(data))
		was, ok := new(digester).of(data)
		if !ok {
			t.Errorf("the data of %s hold something that cannot be told", page.path)
		}
		eachLeaf(copied, page.path, 0, func(path string, leaf reflect.Value) {
			leaves++
			before := reflect.New(leaf.Type()).Elem()
			before.Set(leaf)
			change(leaf)
			if now, _ := new(digester).of(copied.Interface()); now == was {
				t.Errorf("another %s makes no difference", path)
			}
			leaf.Set(before)
		})
	}
	if leaves < 100 {
		t.Errorf("only %d leaves", leaves)
	}
}

// eachLeaf calls f with the strings and numbers that can be changed.
func eachLeaf(v reflect.Value, path string, depth int, f func(string, reflect.Value)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			eachLeaf(v.Field(i), path+"."+v.Type().Field(i).Name, depth+1, f)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			eachLeaf(v.Elem(), path, depth+1, f)
		}
	case reflect.Slice:
		for i := range min(v.Len(), 2) {
			eachLeaf(v.Index(i), fmt.Sprintf("%s[%d]", path, i), depth+1, f)
		}
	case reflect.String, reflect.Bool, reflect.Int, reflect.Float64:
		if v.CanSet() {
			f(path, v)
		}
	}
}

func change(v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		v.SetString(v.String() + "x")
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Int:
		v.SetInt(v.Int() + 1)
	case reflect.Float64:
		v.SetFloat(v.Float() + 1)
	}
}

// Values that look alike when written one behind the other are told apart.
func TestDigestTellsApart(t *testing.T) {
	type pair struct{ A, B string }
	type list struct{ A, B []string }
	type maybe struct{ A, B *string }
	x := "x"
	seen := map[Digest]any{}
	for _, data := range []any{
		pair{"ab", "c"}, pair{"a", "bc"}, pair{"abc", ""}, pair{"", "abc"},
		list{[]string{"a"}, []string{"b"}}, list{[]string{"a", "b"}, nil}, list{nil, []string{"a", "b"}},
		maybe{&x, nil}, maybe{nil, &x}, maybe{},
		&view.Body{Source: []byte("a"), Lead: "b"}, &view.Body{Source: []byte("ab")}, &view.Body{Source: []byte("ab"), Snags: true},
		&view.Body{Source: []byte("ab"), Items: map[int]*view.ItemView{1: {Words: "w"}}},
		&view.Body{Source: []byte("ab"), Items: map[int]*view.ItemView{2: {Words: "w"}}},
		&view.Body{Source: []byte("ab"), Items: map[int]*view.ItemView{1: {Words: "w"}, 2: {Words: "w"}}},
	} {
		of, ok := (&digester{site: []byte("site")}).of(data)
		if !ok {
			t.Errorf("%#v cannot be told", data)
		}
		if other := seen[of]; other != nil {
			t.Errorf("%#v and %#v are the same", other, data)
		}
		seen[of] = data
	}
	for _, data := range []any{struct{ F func() }{}, struct{ M map[string]int }{map[string]int{}}, make(chan int)} {
		if _, ok := new(digester).of(data); ok {
			t.Errorf("%T can be told", data)
		}
	}
	if a, _ := (&digester{site: []byte("a")}).of(x); a == seenOf(t, "b", x) {
		t.Error("the site makes no difference")
	}
}

func seenOf(t *testing.T, site string, data any) Digest {
	of, ok := (&digester{site: []byte(site)}).of(data)
	if !ok {
		t.Error("it cannot be told")
	}
	return of
}
