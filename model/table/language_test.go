package table

import (
	"os"
	"path/filepath"
	"testing"
)

func TestLanguageOf(t *testing.T) {
	for _, c := range []struct {
		file, text string
		want       Language
	}{
		{"a.c", "", C}, {"b/A.H", "", C}, {"a.cpp", "", CPP}, {"a.cc", "", CPP}, {"a.hpp", "", CPP}, {"a.ino", "", CPP},
		{"a.go", "", Go}, {"a.rs", "", Rust}, {"a.py", "", Python}, {"a.txt", "", Plain}, {"-", "", Plain}, {"standard input", "", Plain},
		// by content
		{"-", "1000\n0100\n", Plain},
		{"-", "A(+) B(+) A(-) B(-)\n1 0 0 0\n", Plain},
		{"-", "1) 1000\n2) 0100", Plain},
		{"-", "# let the package use it: def x, import y from z {;}\n1000", Plain},
		{"-", "// int t[] = {1,2};\n1000", Plain},
		{"-", "/* fn main() */ 1000", Plain},
		{"-", "0b1000, 0b0100", Plain},
		{"-", "#include <stdint.h>\nuint8_t t[] = {8,4,2,1};", C},
		{"-", "#define N 4\n", C},
		{"-", "#include <array>\nstd::array<int,4> t{8,4,2,1};", CPP},
		{"-", "int t[4] = {8,4,2,1};", C},
		{"-", "static const int t[] = {\n  8,4,2,1 }", C},
		{"-", "{1,0,0,0},\n{0,1,0,0}", C},
		{"-", "{HIGH, LOW}", C},
		{"-", "constexpr int t[] = {1,2};", CPP},
		{"a.txt", "int t[4] = {8,4,2,1};", C},
		{"-", "package main\n\nvar t = []int{1}", Go},
		{"-", "t := []int{8,4,2,1}", Go},
		{"-", "[]byte{8,4,2,1}", Go},
		{"-", "let t = [8,4,2,1];", Rust},
		{"-", "pub const T: [u8; 4] = [8,4,2,1];", Rust},
		{"-", "const T: [[bool; 4]; 2] = [[true,false,false,false],[false,true,false,false]];", Rust},
		{"-", "#[rustfmt::skip]\nstatic T: &[u8] = &[8];", Rust},
		{"-", "vec![8, 4, 2, 1]", Rust},
		{"-", "t = [8, 4, 2, 1]", Python},
		{"-", "[[1,0,0,0],[0,1,0,0]]", Python},
		{"-", "t = ((True, False), (False, True))", Python},
		{"-", "t = {'half': [8, 4, 2, 1]}", Python},
		{"-", "#!/usr/bin/env python3\n# {;}\nfrom time import sleep\nt = (1, 2)", Python},
		{"-", "# if only\nt = [1, 2]", Python},
	} {
		if got := LanguageOf(c.file, []byte(c.text)); got != c.want {
			t.Errorf("%s %q: %s, want %s", c.file, c.text, got, c.want)
		}
	}
}

// Without its ending, each file of the corpus is still told by its content.
func TestLanguageOfTheCorpus(t *testing.T) {
	each(t, "good", func(name string, text []byte) {
		want := LanguageOf(name, text)
		got := LanguageOf("-", text)
		if got != want && !(want == CPP && got == C) { // what both have does not tell them apart
			t.Errorf("%s: %s, want %s", name, got, want)
		}
	})
	if _, err := os.Stat(filepath.Join(corpus, "ORIGIN")); err != nil {
		t.Error(err)
	}
}
