package note
import ("testing";"strings";"time";"fmt")
func TestZZ(t *testing.T){
 fit:=func(s string) string { n:=(MaxSize-100)/len(s); return strings.Repeat(s,n) }
 for i,s:=range evilShapes { times:=(MaxSize-20000)/max(len(s.piece),1); if s.piece=="%STAIRS%" {times=200000}; b:=evil(i,times); if len(b)>MaxSize-40 {b=b[:MaxSize-40]}; st:=time.Now(); n:=bodyOf(b); fmt.Println(s.name,len(b),time.Since(st), n.Unread) }
 for name,p:=range map[string]string{"near emphasis":strings.Repeat("*a_ ",990)+"\n\n","near links":strings.Repeat("[a](",990)+"\n\n","near headings":"# "+strings.Repeat("*a_ ",990)+"\n","near nest": strings.Repeat("> ",99)+"x\n\n", "near nest2": strings.Repeat(">",99)+"x\n", "near lists": strings.Repeat("- ",99)+"x\n", "table": strings.Repeat("|a",50)+"\n"+strings.Repeat("|-",50)+"\n"+strings.Repeat("|\n",5)+"\n", "cells": "|a|b\n|-|-\n"+strings.Repeat("|"+strings.Repeat("*a_ ",400)+"|"+strings.Repeat("*a_ ",400)+"|\n",20)+"\n", "refs": "[a]: b\n", "refs2":"[a]\n\n", "html":"<a>\n", "fence": "```\n", "lines":"x\n", "deep": "- a\n  - b\n    - c\n"} {
  b:=fit(p); st:=time.Now(); bodyOf(b); fmt.Println(name,len(b),time.Since(st)) }
}
