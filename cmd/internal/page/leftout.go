package page

import (
	"fmt"
	"reflect"

	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
)

// takes are the keys that the tables of a shot could have besides those that are there,
// table by table. Axes tell theirs with their moves.
func takes(s shot.Shot) []Value {
	return shotOrder().sorted(plainly(takesOf(reflect.ValueOf(s.Raw()))))
}

// takesOf are those of whatever source reads.
func takesOf(whole reflect.Value) []Value {
	out := []Value{}
	var table func(path string, v reflect.Value)
	field := func(path string, v reflect.Value) {
		switch v.Kind() {
		case reflect.Map:
			for _, k := range inOrder(v) {
				table(path+"."+source.Join(k), v.MapIndex(reflect.ValueOf(k)))
			}
		case reflect.Slice:
			for i := range v.Len() {
				table(fmt.Sprintf("%s[%d]", path, i+1), v.Index(i))
			}
		default:
			table(path, v)
		}
	}
	table = func(path string, v reflect.Value) {
		for v.Kind() == reflect.Pointer {
			if v.IsNil() {
				return
			}
			v = v.Elem()
		}
		if v.Kind() != reflect.Struct || !isTable(v.Type()) {
			return
		}
		for _, k := range source.Keys(v.Type()) {
			if v.Type() == reflect.TypeFor[shot.RawRig]() && len(k.Index) > 1 {
				continue
			}
			switch x := v.FieldByIndex(k.Index); is := x.Interface().(type) {
			case source.Text:
				if !is.Set && path != "" {
					out = append(out, leftOut(path, k))
				}
			case source.Texts:
				if !is.Set && path != "" {
					out = append(out, leftOut(path, k))
				}
			default:
				if axes, is := is.(map[string]move.Raw); is {
					for _, name := range source.InOrder(axes, func(a move.Raw) source.Place { return a.Place }) {
						a := axes[name]
						field("axis."+source.Join(name)+".keys", reflect.ValueOf(a.Keys))
					}
					continue
				}
				under := k.Key
				if path != "" {
					under = path + "." + k.Key
				}
				field(under, x)
			}
		}
	}
	table("", whole)
	return out
}

func isTable(t reflect.Type) bool {
	return t != reflect.TypeFor[source.Text]() && t != reflect.TypeFor[source.Texts]() && t != reflect.TypeFor[source.Switch]() &&
		t != reflect.TypeFor[source.Place]() && t != reflect.TypeFor[source.Without]()
}
