package page

import (
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/spec/rig"
)

func TestFieldsThatAreThoughtOfFirstComeFirst(t *testing.T) {
	keys, ofRig := schemaKeys(), keysOf(reflect.TypeFor[rig.Raw]())
	for _, o := range []struct {
		fieldOrder
		keys map[string][]string
	}{{shotOrder(), keys}, {rigOrder(), ofRig}} {
		for _, kind := range o.tables {
			assert.Contains(t, o.keys, kind)
		}
		for kind, list := range o.fieldOrder.keys {
			assert.Subset(t, o.keys[kind], list, kind)
		}
	}
	for kind := range rigTables() {
		assert.Contains(t, ofRig, kind)
	}
	for kind := range ofRig {
		assert.Contains(t, rigTables(), kind, "has no heading")
	}
}

func TestEveryFieldIsThereInItsOrder(t *testing.T) {
	b := browsed(t)
	groups := func(list []Value) (out []string) {
		for _, v := range list {
			if !slices.Contains(out, v.Group) {
				out = append(out, v.Group)
			}
		}
		return out
	}
	v := b.planned(b.text, false).View
	require.NotNil(t, v)
	first := groups(v.Values)
	assert.Equal(t, []string{"", "clock", "scene.product", "axis.rail", "axis.table", "camera", "scene"}, first[:7])
	assert.Equal(t, "rig", first[len(first)-1])
	lamp := slices.IndexFunc(v.Values, func(v Value) bool { return v.Group == "scene.lamps[1]" })
	assert.Equal(t, "name", v.Values[lamp].Label)
	assert.Equal(t, "level", v.Values[lamp+1].Label)

	var f RigBench
	b.asked("rig/file", rigFileQuestion{Text: b.text}, &f)
	require.Equal(t, starter.RigName, f.File)
	assert.Equal(t, []string{"", "axis.rail", "axis.rail.belt", "axis.table", "controller"}, groups(f.Values)[:5])
	assert.Equal(t, "The axis rail", f.Values[slices.IndexFunc(f.Values, func(v Value) bool { return v.Group == "axis.rail" })].In)
}

func TestTablesOfARigInPlainWords(t *testing.T) {
	for group, want := range map[string]string{"": "The rig", "axis.rail.belt": "Belt of rail", "stand.plate.speed.slow": "Speed of the display stand plate slow", "controller.reports": "What it calls that"} {
		assert.Equal(t, want, ofRig([]Value{{Group: group}})[0].In)
	}
}
