package page

import (
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/source"
	"seamrail/motion/law"
	"seamrail/motion/spec/shot"
)

// schemaKeys are the keys of each kind of table of a shot file.
func schemaKeys() map[string][]string { return keysOf(reflect.TypeOf(shot.Shot{}.Raw())) }

func keysOf(whole reflect.Type) map[string][]string {
	out := map[string][]string{}
	var table func(kind string, of reflect.Type)
	table = func(kind string, of reflect.Type) {
		for of.Kind() != reflect.Struct {
			of = of.Elem()
		}
		for _, k := range source.Keys(of) {
			below := strings.TrimPrefix(kind+"."+k.Key, ".")
			switch {
			case k.Type == reflect.TypeFor[source.Text]() || k.Type == reflect.TypeFor[source.Texts]():
				out[kind] = append(out[kind], k.Key)
			case below == "rig.rig" || k.Type == reflect.TypeFor[source.Switch]():
			case slices.Contains([]reflect.Kind{reflect.Struct, reflect.Pointer, reflect.Slice, reflect.Map}, k.Type.Kind()):
				table(below, k.Type)
			}
		}
	}
	table("", whole)
	return out
}

func TestWordsOfKeys(t *testing.T) {
	keys := schemaKeys()
	used := map[string]bool{}
	for kind, list := range keys {
		seen := map[string]string{}
		for _, key := range list {
			last := kind[strings.LastIndex(kind, ".")+1:] + "."
			used[last+key], used[key] = true, used[key] || keyWords()[last+key] == ""
			words := plainKey(kind, key)
			assert.NotEmpty(t, words, key)
			assert.NotContains(t, words, "-", "%s of %s needs words", key, kind)
			assert.Empty(t, seen[words], "%s and %s of %s are both %q", key, seen[words], kind, words)
			seen[words] = key
		}
	}
	for key := range keyWords() {
		assert.True(t, used[key], "%q is no key", key)
	}
	for kind := range tableWords {
		assert.Contains(t, keys, kind)
	}
}

func TestTablesInPlainWords(t *testing.T) {
	for group, want := range map[string]string{
		"": "The shot", "axis.rail": "How it moves rail", "axis.rail.keys[3]": "Key rail 3", "scene.lamps[2]": "Lamp 2", "scene.axis.table": "What it does to the picture table", "clock": "Rates and length",
	} {
		words, _ := plainTable(group)
		assert.Equal(t, want, words)
	}
	assert.Equal(t, "Ease", plainKey("axis", "law"))
	assert.Equal(t, "Lengths that would do 2", plainKey("clock", "between 2"))
}

func TestEveryLawHasItsWords(t *testing.T) {
	assert.ElementsMatch(t, law.Names(), slices.Collect(maps.Keys(lawWords)))
	for name, words := range lawWords {
		assert.NotEmpty(t, words, name)
	}
}

// nearEnd is a share of the time so near an end that only its softness counts.
const nearEnd = 1e-3

// What the words compare is so by the laws themselves.
func TestWordsOfLawsAreTrue(t *testing.T) {
	jolts := map[string]bool{"harmonic": true, "trapezoidal": true, "uniform": true}
	at := func(name string) (law.Peaks, float64) {
		l, err := law.Named(name)
		require.NoError(t, err)
		return l.Peaks(), math.Abs(l.At(nearEnd).A)
	}
	three, threeEnd := at("3-4-5")
	sine, _ := at("modified-sine")
	assert.True(t, sine.A < three.A && sine.V < three.V)
	cycloidal, cycloidalEnd := at("cycloidal")
	assert.True(t, cycloidalEnd < threeEnd && cycloidal.V > three.V)
	least, _ := at("trapezoidal")
	smooth, _ := at("modified-trapezoid")
	low, _ := at("seven-segment")
	quick, softest := at("4-5-6-7")
	for _, l := range law.All() {
		p, end := at(l.Name())
		// Acceleration jumps inside the move, or at its ends.
		assert.Equal(t, jolts[l.Name()], math.IsInf(p.J, 1) || end > 1 || l.Name() == "uniform", l.Name())
		assert.LessOrEqual(t, p.V, quick.V, l.Name())
		if l.Name() == "uniform" {
			continue
		}
		assert.GreaterOrEqual(t, p.A, least.A, l.Name())
		assert.GreaterOrEqual(t, end, softest, l.Name())
		if !jolts[l.Name()] {
			assert.GreaterOrEqual(t, p.A, smooth.A, l.Name())
			assert.GreaterOrEqual(t, p.V, low.V, l.Name())
		}
	}
}
