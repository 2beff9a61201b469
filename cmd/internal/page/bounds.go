package page

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"unicode/utf8"

	"seamrail/motion/base/plain"
)

// What a question may hold, beside its length. Whatever has no bound of its own has the
// usual one.
const (
	// mostText bounds what no person writes longer in one value, or in one flag.
	mostText = 2000
	// mostItems bounds what comes in a list, or as flags: no change of a shot has so many
	// edits, each of which has the shot read anew.
	mostItems = 100
	// mostWork bounds edits times the length of the text: each goes through all of it, at
	// some 20 MB/s.
	mostWork = 20 << 20
)

// mostOf are bounds of values by their names on the wire, in characters.
var mostOf = map[string]int{
	// Shots and rigs: a question is no longer.
	"text": maxBody, "here": maxBody, "there": maxBody, "whole": maxBody, "value": 64 << 10, "was": 64 << 10,
	// Names of files, and places in them, are longer than what is typed elsewhere.
	"path": 1000, "file": 1000, "folder": 1000,
	"group": 60, "pass": 60, // as in the fields of the page
}

// names are values that are a name and nothing else. Those of files and folders are
// looked at where files are.
var names = []string{"group", "pass", "clip", "form", "name", "request", "revision"}

// bounded tells what of a question is beyond its bounds.
func bounded(q any) error {
	b := bounds{}
	b.look("", reflect.ValueOf(q))
	if b.err == nil && b.edits*b.text > mostWork {
		return fmt.Errorf("%d edits of a text of %d bytes are too much at once; ask for fewer of them", b.edits, b.text)
	}
	return b.err
}

type bounds struct {
	edits, text int
	err         error
}

// look goes through a value with a name on the wire.
func (b *bounds) look(name string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			b.look(name, v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			wire, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
			b.look(wire, v.Field(i))
		}
	case reflect.Slice:
		b.count(name, v.Len())
		for i := range v.Len() {
			b.look(name, v.Index(i))
		}
	case reflect.Map:
		b.count(name, v.Len())
		for _, k := range v.MapKeys() {
			b.look(name, k)
			b.look(name, v.MapIndex(k))
		}
	case reflect.String:
		b.say(name, v.String())
	}
}

func (b *bounds) count(name string, n int) {
	if name == "edits" {
		b.edits = n
	}
	most := mostItems
	switch name {
	case "frames": // of pictures: they are numbers, and each is looked up, not read
		most = maxPicked
	case "files":
		most = mostStills
	}
	if n > most {
		b.wrong("%q has %d items, and may have %d", name, n, most)
	}
}

func (b *bounds) say(name, text string) {
	if name == "text" {
		b.text = len(text)
	}
	most, own := mostOf[name]
	if !own {
		most = mostText
	}
	if n := utf8.RuneCountInString(text); n > most {
		b.wrong("%q has %d characters, and may have %d", name, n, most)
		return
	}
	if !slices.Contains(names, name) {
		return
	}
	switch line := plain.Line(text); {
	case line == text:
	case strings.Trim(line, "\ufffd ") == "":
		b.wrong("%q has nothing in it that is to be seen; give it a name, or leave it out", name)
	default:
		b.wrong("%q is %q, with blanks to spare, line breaks or what is not to be seen in it; %q would do", name, text, strings.ReplaceAll(line, "\ufffd", ""))
	}
}

func (b *bounds) wrong(format string, about ...any) {
	if b.err == nil {
		b.err = fmt.Errorf(format, about...)
	}
}
