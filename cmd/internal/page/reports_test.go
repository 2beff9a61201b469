package page

import (
	"encoding"
	"fmt"
	"maps"
	"path"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/report/fitreport"
	"seamrail/export/report/footagereport"
	"seamrail/export/report/sequencereport"
	"seamrail/export/report/spinreport"
)

// What commands write with --json is passed on as it is, and told the scripts as it is.
func TestTheReportsAreToldAsTheyAre(t *testing.T) {
	r := reported{}
	for _, document := range []any{spinreport.Document{}, fitreport.Document{}, sequencereport.Document{}, footagereport.Document{}} {
		r.kind(t, reflect.TypeOf(document))
	}
	kept(t, "reports.d.ts", "// Written by a test of package page from the structs of Go: the reports of commands.\n\n"+
		strings.Join(slices.Collect(func(yield func(string) bool) {
			for _, name := range slices.Sorted(maps.Keys(r)) {
				if !yield(r[name]) {
					return
				}
			}
		}), ""))
}

// reported are the types of reports as the checker of the scripts reads them, by their names.
type reported map[string]string

// kind is how a type is called there.
func (r reported) kind(t *testing.T, x reflect.Type) string {
	switch x.Kind() {
	case reflect.Pointer:
		return r.kind(t, x.Elem()) + " | null"
	case reflect.Slice, reflect.Array:
		if item := r.kind(t, x.Elem()); strings.Contains(item, "|") {
			return "(" + item + ")[]"
		} else if x.Kind() == reflect.Array {
			return "[" + strings.Join(slices.Repeat([]string{item}, x.Len()), ", ") + "]"
		} else {
			return item + "[]"
		}
	case reflect.Map:
		return "Record<string, " + r.kind(t, x.Elem()) + ">"
	case reflect.Struct:
		return r.structure(t, x)
	case reflect.String:
		return "string"
	case reflect.Bool:
		return "boolean"
	case reflect.Int, reflect.Int64, reflect.Float64:
		return "number"
	}
	require.Fail(t, "the scripts cannot be told of this type", x.String())
	return ""
}

func (r reported) structure(t *testing.T, x reflect.Type) string {
	if x.Implements(reflect.TypeFor[encoding.TextMarshaler]()) {
		return "string"
	}
	name := path.Base(x.PkgPath()) + "." + x.Name()
	if _, known := r[name]; known {
		return name
	}
	r[name] = ""
	var bases []string
	var fields strings.Builder
	for f := range x.Fields() {
		tag, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case f.Anonymous && tag == "":
			bases = append(bases, r.kind(t, f.Type))
		case tag == "" || tag == "-":
		case strings.Contains(options, "omit"):
			fmt.Fprintf(&fields, "    %s?: %s;\n", tag, strings.TrimSuffix(r.kind(t, f.Type), " | null"))
		default:
			fmt.Fprintf(&fields, "    %s: %s;\n", tag, r.kind(t, f.Type))
		}
	}
	from := ""
	if len(bases) > 0 {
		from = " extends " + strings.Join(bases, ", ")
	}
	space, own, _ := strings.Cut(name, ".")
	r[name] = fmt.Sprintf("declare namespace %s {\n  interface %s%s {\n%s  }\n}\n", space, own, from, fields.String())
	return name
}
