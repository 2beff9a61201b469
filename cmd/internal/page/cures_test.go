package page

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/motion/plan/judge"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
)

// ailments are values that break something, of a shot that has the keys.
var ailments = [][]Set{
	nil,
	{{"camera.shutter", "1/125 s"}, {"camera.aperture", "f/4"}},
	{{"camera.iso", "100"}, {"camera.aperture", "f/22"}},
	{{"camera.iso", "25600"}},
	{{"clock.loop", "36 frames"}},
	{{"clock.loop", "61 frames"}, {"camera.shutter", "1/500 s"}},
	{{"scene.distance", "300 mm"}},
	{{"clock.retime", "1/3"}},
	{{"axis.rail.to", "390 mm"}},
	{{"scene.holes[1].diameter", "40 mm"}},
	{{"scene.lamps[1].kelvin", "3200 K"}, {"scene.lamps[2].kelvin", "5600 K"}},
	{{"scene.lamps[1].ripple", "40 %"}, {"scene.lamps[1].ripple-rate", "480 Hz"}, {"camera.shutter", "1/300 s"}},
	{{"take.handles", "40 frames"}},
	{{"scene.pan", "40 deg"}},
	{{"axis.rail.from", "0 mm"}, {"axis.rail.to", "400 mm"}},
	{{"frame-by-frame.hand", "1 s"}, {"frame-by-frame.every", "4 s"}},
	{{"axis.rail.law", "harmonic"}, {"axis.rail.dwell-far", "12 frames"}, {"clock.loop", "40 frames"}},
}

// bedside is a desk on a kind of shot, in a folder of its own, and its text.
func bedside(t *testing.T, k kinds.Kind) (*desk, string) {
	t.Helper()
	machine := k.BuiltIn(starter.Rig(), true)
	r, _, err := rig.Decode(starter.RigName, machine)
	require.NoError(t, err)
	text, err := k.Make(kinds.BenchOf(r, true), nil, starter.RigName, true)
	require.NoError(t, err)
	return deskOf(t, text, machine), string(text)
}

// deskOf is a desk on a shot, in a folder of its own.
func deskOf(t *testing.T, shot, rig []byte) *desk {
	t.Helper()
	dir := t.TempDir()
	name := filepath.Join(dir, starter.ShotName)
	require.NoError(t, os.WriteFile(name, shot, 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, starter.RigName), rig, 0o600))
	s, err := Open(Options{Shot: name, Version: "test"})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Close()) })
	return s.first
}

// typed are values as the page asks for them.
func typed(sets []Set) []Edit {
	return listOf(sets, func(x Set) Edit { return Edit{Path: x.Path, Value: &x.Value} })
}

// TestEveryCureCures takes every cure of many ailing shots up: each plans, and what it was
// offered for is better than it was and does hold, or passes as far as is known.
func TestEveryCureCures(t *testing.T) {
	seen := map[string]int{}
	const few = 6 // each kind is tried with every sixth of them, the next with others
	for n, k := range kinds.All() {
		d, text := bedside(t, k)
		for i, ail := range ailments {
			if !many.Asked() && i%few != n%few {
				continue
			}
			ill := d.answer(t.Context(), question{Text: text, Edits: typed(ail)})
			if ill.View != nil {
				takeUp(t, d, k.Name, ill, seen)
			}
		}
	}
	t.Log(seen)
	assert.GreaterOrEqual(t, len(seen), 8, "so many questions have cures: %v", seen)
}

func takeUp(t *testing.T, d *desk, kind string, ill Answer, seen map[string]int) {
	t.Helper()
	for _, v := range ill.View.Verdicts {
		for _, f := range v.Fits {
			if len(f.Edits) == 0 {
				continue
			}
			name, _, _ := strings.Cut(v.Name, " of ")
			if name != v.Name && name == "closing" {
				name += " of"
			}
			seen[name]++
			well := d.answer(t.Context(), question{Text: ill.Text, Edits: typed(f.Edits)})
			if !assert.NotNil(t, well.View, "%s: %s: %s: %v", kind, v.Name, f.Text, well.Faults) {
				continue
			}
			k := slices.IndexFunc(well.View.Verdicts, func(w Verdict) bool { return w.Name == v.Name && w.Axis == v.Axis })
			if k < 0 {
				continue // a limit that is kept is not told by name
			}
			w := well.View.Verdicts[k]
			assert.NotEqual(t, bad, w.Level, "%s: %s: %s %v: %s", kind, v.Name, f.Text, f.Edits, w.Text)
			assert.False(t, v.Level == fair && w.Level == fair, "%s: %s: %s %v: %s", kind, v.Name, f.Text, f.Edits, w.Text)
		}
	}
}

// TestTheHeadlineIsAsBadAsTheWorst holds both sides: what the core's headline says is what
// the list shows, and the level on the page is that of the worst in it.
func TestTheHeadlineIsAsBadAsTheWorst(t *testing.T) {
	for _, k := range kinds.All() {
		d, text := bedside(t, k)
		for _, ail := range ailments {
			quick, to := !many.Asked(), whole // a sketch has its headline of its own verdicts
			if quick {
				to = sketched
			}
			ill := d.answer(t.Context(), question{Text: text, Edits: typed(ail), Quick: quick})
			if ill.View == nil {
				continue
			}
			p, err := d.plannedTo(t.Context(), ill.Text, to)
			require.NoError(t, err)
			worst := ill.View.Verdicts[0].Level
			h := p.Glanced
			assert.Equal(t, worst, ill.View.Headline.Level)
			assert.Equal(t, worst == bad, h.Tone == judge.Barred || len(h.Fails) > 0, "%s %v: %s", k.Name, ail, h.Words)
			assert.Equal(t, h.Tone == judge.Barred, ill.View.Verdicts[0].bars, "%s %v: %s", k.Name, ail, h.Words)
			for _, v := range ill.View.Verdicts {
				assert.GreaterOrEqual(t, rank(v), rank(ill.View.Verdicts[0]))
				assert.False(t, v.Level == unknown && h.Tone == judge.Clear, "%s: %s", k.Name, v.Name)
			}
		}
	}
}

// What keeps a shot from being planned is the same whether its picture is looked at or not:
// changes are tried without.
func TestWhatIsSoundIsPlanned(t *testing.T) {
	wrong := [][2]string{
		{"camera.focus", "40 mm"}, {"camera.focal-length", "400 mm"}, {"scene.distance", "1 mm"}, {"cue[1].at", "1 frames"}, {"cue[1].lead", "9 s"}, {"camera.pull.keys[1].focus", "40 mm"},
		{"camera.pull.keys[2].at", "1 frames"}, {"scene.lamps[1].beam", "200 deg"}, {"scene.product.radius", "0 mm"}, {"scene.holes[1].centre[2]", "9 mm"}, {"camera.shutter", "1 s"},
	}
	faulty := 0
	for _, k := range kinds.All() {
		d, text := bedside(t, k)
		for _, w := range wrong {
			changed, err := d.doc.set(text, w[0], w[1])
			if err != nil {
				continue
			}
			_, unsound := d.plannedTo(t.Context(), changed, sound)
			_, unplanned := d.plannedTo(t.Context(), changed, sketched)
			assert.Equal(t, faultsIn(unplanned), faultsIn(unsound), "%s %v", k.Name, w)
			if unplanned != nil {
				faulty++
			}
		}
	}
	assert.Greater(t, faulty, 10)
	t.Log(faulty)
}

func faultsIn(err error) []Fault {
	if err == nil {
		return nil
	}
	return faultsOf(err)
}
