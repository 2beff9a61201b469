package page

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
)

// few are kinds that between them have every move and most tables.
var few = []string{"hand", "still-turn", "display-stand"}

// everyBench calls f with each built-in shot on each built-in rig that can film it, and
// the starter's own.
func everyBench(t *testing.T, f func(t *testing.T, s *desk, text string)) {
	t.Helper()
	run := func(name string, text, rigText []byte) {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			file := filepath.Join(dir, "shot.toml")
			require.NoError(t, os.WriteFile(file, text, 0o600))
			require.NoError(t, os.WriteFile(filepath.Join(dir, starter.RigName), rigText, 0o600))
			s, err := Open(Options{Shot: file})
			require.NoError(t, err)
			t.Cleanup(func() { assert.NoError(t, s.Close()) })
			require.Empty(t, s.first.answer(t.Context(), question{Text: string(text)}).Faults)
			f(t, s.first, string(text))
		})
	}
	run("starter", starter.Shot(), starter.Rig())
	for _, k := range kinds.All() {
		for _, controller := range rig.Kinds() {
			rigText := k.BuiltIn(starter.RigWith(controller), true)
			r, _, err := rig.Decode(starter.RigName, rigText)
			require.NoError(t, err)
			b := kinds.BenchOf(r, true)
			if k.Suits(b) != nil || controller != rig.Buffered && controller != rig.TwoEnds {
				continue // the others only stream otherwise
			}
			if !many.Asked() && !slices.Contains(few, k.Name) {
				continue
			}
			text, err := k.Make(b, nil, starter.RigName, true)
			require.NoError(t, err)
			run(fmt.Sprint(k.Name, " ", controller), text, rigText)
		}
	}
}

// Whatever can be added plans, and can be taken out again, which leaves no trace.
func TestWhateverIsAddedPlansAndLeavesNoTrace(t *testing.T) {
	everyBench(t, func(t *testing.T, s *desk, text string) {
		view := viewed(t, s, text)
		require.NotEmpty(t, view.Adds)
		for _, x := range view.Adds {
			assert.NotEmpty(t, x.Label, x.Path)
			assert.NotEmpty(t, x.What, x.Path)
			a := s.answer(t.Context(), question{Text: text, Edits: []Edit{{Do: doAdd, Path: x.Path}}})
			if !assert.Empty(t, a.Faults, x.Path) {
				continue
			}
			require.False(t, a.Refused)
			assert.NotEqual(t, text, a.Text)
			assert.NotEmpty(t, a.At, x.Path)
			back := s.answer(t.Context(), question{Text: a.Text, Edits: []Edit{{Do: doRemove, Path: a.At}}})
			assert.Empty(t, back.Faults, "%s out again", a.At)
			assert.Equal(t, text, back.Text, "%s leaves something", a.At)
		}
	})
}

// Whatever can be taken out is gone, and the shot plans; or the page says why it stays.
func TestWhateverIsTakenOutIsGone(t *testing.T) {
	everyBench(t, func(t *testing.T, s *desk, text string) {
		for _, x := range viewed(t, s, text).Removes {
			a := s.answer(t.Context(), question{Text: text, Edits: []Edit{{Do: doRemove, Path: x.Path}}})
			if a.Refused {
				assert.Equal(t, text, a.Text)
				assert.NotEmpty(t, a.Faults[0].Text, x.Path)
				t.Logf("%s stays: %v", x.Path, a.Faults)
				continue
			}
			assert.Empty(t, a.Faults, x.Path)
			assert.Less(t, len(a.Text), len(text), x.Path)
		}
	})
}

// Each move of each axis becomes each other that it can be, plans, and comes back as it
// was.
func TestEveryMoveBecomesEveryOther(t *testing.T) {
	everyBench(t, func(t *testing.T, s *desk, text string) {
		for i, axis := range viewed(t, s, text).Axes {
			require.NotEmpty(t, axis.Moves, axis.Name)
			assert.True(t, slices.ContainsFunc(axis.Moves, func(m Move) bool { return m.Name == axis.Move }), axis.Name)
			path := "axis." + axis.Name + ".move"
			change := func(text, kind string) Answer {
				return s.answer(t.Context(), question{Text: text, Edits: []Edit{{Do: doKind, Path: path, Value: &kind}}})
			}
			for _, m := range axis.Moves {
				a := change(text, m.Name)
				if !assert.Empty(t, a.Faults, "%s of %s", m.Name, axis.Name) {
					continue
				}
				require.Equal(t, m.Name, a.View.Axes[i].Move)
				back := change(a.Text, axis.Move)
				require.Empty(t, back.Faults, "%s of %s back", m.Name, axis.Name)
				want := viewed(t, s, text)
				assert.Equal(t, want.Plan, back.View.Plan, "%s of %s and back:\n%s", m.Name, axis.Name, back.Text)
				if strings.Contains(text, "move ") || strings.Contains(text, path) {
					assert.Equal(t, text, back.Text, "%s of %s and back", m.Name, axis.Name)
				}
				for _, third := range axis.Moves { // from there to every other, and home
					if third.Name == m.Name || third.Name == axis.Move || !many.Asked() {
						continue
					}
					b := change(a.Text, third.Name)
					if assert.Empty(t, b.Faults, "%s to %s of %s", m.Name, third.Name, axis.Name) {
						home := change(b.Text, axis.Move)
						require.Empty(t, home.Faults)
						assert.Equal(t, want.Plan, home.View.Plan, "%s, %s and home:\n%s", m.Name, third.Name, home.Text)
					}
				}
			}
		}
	})
}

// No choice in any list leads to a fault that only text can mend: it is planned, or it is
// refused in words, and the text stays.
// Where a second thing turns, what carries the product still does, and the shot says so.
func TestWhatCarriesTheProductStillDoes(t *testing.T) {
	_, bench := heavyShot(t)
	d := deskOf(t, starter.Shot(), []byte(bench))
	change := func(text string, e Edit) Answer {
		a := d.answer(t.Context(), question{Text: text, Edits: []Edit{e}})
		require.Empty(t, a.Faults, e.Path)
		require.False(t, a.Refused, e.Path)
		return a
	}
	beside := change(string(starter.Shot()), Edit{Do: doAdd, Path: "spin.left"})
	assert.Regexp(t, `(?m)^on *= "table"$`, beside.Text)
	assert.Equal(t, "spin.left", beside.At)
	assert.Equal(t, []string{"the product stays on table, which is now said; what it stands on is another of its values"}, beside.Told)

	still := change(string(starter.Shot()), Edit{Do: doKind, Path: "axis.table.move", Value: new("hold")})
	stand := change(still.Text, Edit{Do: doAdd, Path: "spin.left"})
	assert.NotRegexp(t, `(?m)^on *=`, stand.Text, "the stand alone turns")
	turns := change(stand.Text, Edit{Do: doKind, Path: "axis.table.move", Value: new("turn")})
	assert.Regexp(t, `(?m)^on *= "left"$`, turns.Text)
}

func TestNoChoiceLeadsIntoAFault(t *testing.T) {
	everyBench(t, func(t *testing.T, s *desk, text string) {
		view := viewed(t, s, text)
		all := slices.Concat(view.Values, view.Takes)
		for _, a := range view.Axes {
			all = append(all, a.MoveKeys...)
		}
		for _, v := range all {
			for _, c := range v.Choices {
				a := s.answer(t.Context(), question{Text: text, Edits: []Edit{{Path: v.Path, Value: &c}}, Quick: true})
				if !a.Refused {
					assert.Empty(t, a.Faults, "%s = %s", v.Path, c)
					continue
				}
				assert.Equal(t, text, a.Text)
				if assert.NotEmpty(t, a.Faults) {
					assert.NotEmpty(t, a.Faults[0].Text, "%s = %s", v.Path, c)
				}
			}
		}
	})
}

// viewed is the view of a text that plans.
func viewed(t *testing.T, s *desk, text string) *View {
	t.Helper()
	a := s.answer(t.Context(), question{Text: text})
	require.Empty(t, a.Faults)
	return a.View
}
