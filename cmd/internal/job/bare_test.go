package job

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// typed are values as flags give them: "from" of the rail, "turns" of the table.
func typed(texts ...string) (out []Value) {
	for _, t := range texts {
		key, text, _ := strings.Cut(t, "=")
		of := Rail
		switch {
		case key == "turns" || key == "symmetry":
			of = Table
		case strings.Contains(key, "."):
			of = nil
		}
		out = append(out, Value{Key: key, Of: of, Text: text, Origin: "--" + key})
	}
	return out
}

// A move that values describe is a shot by itself; what does not describe one changes the
// built-in shot.
func TestBare(t *testing.T) {
	for _, c := range []struct {
		values, axis string
		title, moves string
	}{
		{"from=40 mm;to=100 mm", "", "Rail, there and back", "rail there-and-back"},
		{"from=40 mm;to=100 mm;law=cycloidal;turns=1/6", "", "Rail, there and back; table, turn", "rail there-and-back, table turn"},
		{"move=turn;turns=1/6;law=3-4-5;clock.loop=30 s", "", "Table, turn", "table turn"},
		{"move=turn;turns=1/6;from=40 mm;to=100 mm", "", "Rail, there and back; table, turn", "rail there-and-back, table turn"},
		{"move=through;from=40 mm;to=280 mm", "", "Rail, through", "rail through"},
		{"move=hold;at=40 mm;turns=1/6", "", "Rail, hold; table, turn", "rail hold, table turn"},
		{"from=0 deg;to=10 deg", "table", "Table, there and back", "table there-and-back"},
		{"turns=1/6", "", "Fernhollow lantern, slow reveal", "rail there-and-back, table turn"},
		{"from=50 mm", "", "Fernhollow lantern, slow reveal", "rail there-and-back, table turn"},
	} {
		j := made(t, Source{Over: typed(strings.Split(c.values, ";")...), Axis: c.axis})
		assert.Equal(t, c.title, j.Plan.Title, c.values)
		var moves []string
		for _, a := range j.Plan.Axes {
			moves = append(moves, a.Rig.Name+" "+a.Move.Kind())
		}
		assert.Equal(t, c.moves, strings.Join(moves, ", "), c.values)
	}
}

// What is wrong with it is said of flags: there is no line of a file to look at.
func TestBareFaults(t *testing.T) {
	for values, want := range map[string]string{
		"move=turn":                           `the flags: axis table: turns is missing; give it, such as turns = "1/6"`,
		"move=through;from=40 mm":             `the flags: axis rail: to is missing; give it, such as to = "280 mm"`,
		"move=through;from=40 mm;to=90 deg":   `--to: axis rail: to "90 deg" must be a length, as from is`,
		"from=40 mm;to=100 mm;clock.loop=6 V": `--clock.loop: clock.loop "6 V"`,
	} {
		_, err := Source{Over: typed(strings.Split(values, ";")...)}.Job(nil)
		require.Error(t, err)
		assert.True(t, strings.HasPrefix(err.Error(), want), err.Error())
	}
}
