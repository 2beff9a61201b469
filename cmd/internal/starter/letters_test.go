package starter_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/spec/rig"
)

// Another letter for the table is one in all places, and leaves nothing that is
// asked.
func TestTableLetters(t *testing.T) {
	for _, letter := range strings.Split(starter.TableLetters, "") {
		for _, kind := range rig.DrivenKinds() {
			text := starter.WithTableLetter(starter.RigWith(kind), letter)
			r, defaults, err := rig.Decode(starter.RigName, text)
			require.NoError(t, err)
			assert.Empty(t, defaults)
			table, _ := r.Axis("table")
			assert.Equal(t, letter, table.Letter)
			assert.False(t, r.Controller.DoubtfulLetter(table))
			want := r.Controller.UsualNames(letter)
			want.Acceleration, want.Speed = table.Settings.Acceleration, table.Settings.Speed
			assert.Equal(t, want, table.Settings)
		}
	}
	r, _, err := rig.Decode(starter.RigName, starter.Rig())
	require.NoError(t, err)
	table, _ := r.Axis("table")
	assert.True(t, r.Controller.DoubtfulLetter(table), "the pair says what it does not know")
}
