package page

import (
	"fmt"
	"reflect"
	"regexp"
	"strings"
	"sync"

	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
)

// Value is one key of the shot file as it is typed.
type Value struct {
	Path    string   `json:"path"`
	Label   string   `json:"label"`
	Help    string   `json:"help"`
	Value   string   `json:"value"` // "" for a key that is not there
	Unit    string   `json:"unit"`
	Group   string   `json:"group"` // the table it stands in
	Choices []string `json:"choices,omitempty"`
}

// values are the keys that a text has, in the order of the schema.
func values(name, text string) []Value {
	var raw shot.Raw
	if !source.Read([]byte(text), nil, &raw, &source.Report{File: name}) {
		return []Value{}
	}
	out := lister{list: []Value{}}
	out.table("", reflect.ValueOf(raw))
	return out.list
}

type lister struct{ list []Value }

// table lists what is in a table, and in the tables below it.
func (l *lister) table(path string, v reflect.Value) {
	for v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return
		}
		v = v.Elem()
	}
	for _, k := range source.Keys(v.Type()) {
		if v.Type() == reflect.TypeFor[shot.RawRig]() && len(k.Index) > 1 {
			continue // a rig inside the shot is no value of the shot
		}
		l.field(path, k, v.FieldByIndex(k.Index))
	}
}

func (l *lister) field(group string, k source.Key, v reflect.Value) {
	path := k.Key
	if group != "" {
		path = group + "." + k.Key
	}
	switch x := v.Interface().(type) {
	case source.Text:
		l.text(group, path, k.Key, k, x)
	case source.Texts:
		for i, t := range x.Items {
			at, label := path, k.Key
			if !x.Single {
				at, label = fmt.Sprintf("%s[%d]", path, i+1), fmt.Sprintf("%s %d", k.Key, i+1)
			}
			l.text(group, at, label, k, t)
		}
	default:
		l.below(path, v)
	}
}

func (l *lister) text(group, path, label string, k source.Key, t source.Text) {
	if t.Set {
		l.list = append(l.list, Value{
			Path: path, Label: label, Help: k.Help, Value: t.Text, Unit: unitOf(t.Text), Group: group, Choices: k.Choices,
		})
	}
}

// below lists tables by name, in a list, or just one.
func (l *lister) below(path string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Map:
		for _, k := range inOrder(v) {
			l.table(path+"."+k, v.MapIndex(reflect.ValueOf(k)))
		}
	case reflect.Slice:
		for i := range v.Len() {
			l.table(fmt.Sprintf("%s[%d]", path, i+1), v.Index(i))
		}
	case reflect.Struct, reflect.Pointer:
		if v.Type() != reflect.TypeFor[source.Switch]() && v.Type() != reflect.TypeFor[source.Place]() {
			l.table(path, v)
		}
	}
}

// inOrder are the names of tables in the order of the file.
func inOrder(v reflect.Value) []string {
	table := map[string]source.Place{}
	for _, k := range v.MapKeys() {
		table[k.String()], _ = v.MapIndex(k).FieldByName("Place").Interface().(source.Place)
	}
	return source.InOrder(table, func(p source.Place) source.Place { return p })
}

var number = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^[-+]?[0-9][0-9./:]*\s*`)
})

// unitOf is what stands behind a number, or nothing.
func unitOf(text string) string {
	at := number().FindString(text)
	if at == "" {
		return ""
	}
	return strings.TrimSpace(text[len(at):])
}

// absent is a key of an axis that the file does not have.
func absent(group, key string) (Value, bool) {
	for _, k := range move.AllKeys() {
		if k.Key == key && k.Type == reflect.TypeFor[source.Text]() {
			return Value{Path: group + "." + key, Label: key, Help: k.Help, Group: group, Choices: k.Choices}, true
		}
	}
	return Value{}, false
}
