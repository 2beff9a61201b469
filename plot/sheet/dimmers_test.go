package sheet

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/plan/sample"
)

const fadingLamp = `[[scene.lamps]]
name = "rim"
fade = { from = "0 %", to = "81 %", dwell-far = "12 frames" }
curve = "square"
by = "hand"
hand = "left"
`

// The rows of a fade by 3-4-5, half of it in half the time (10u^3 - 15u^4 + 6u^5, Norton,
// Design of Machinery), on a dial of the square law, which stands at 90 % for 81: at each
// mark, and where the fade begins and ends, which is no mark. A lamp that stays has no
// part in it.
func TestDimmers(t *testing.T) {
	p := pageOf(t, lanternMoves+lanternScene+fadingLamp+sample.TwoHands)
	d := p.Dimmers
	assert.Equal(t, []string{"frame", "real s", "rim, dial %", "of 255"}, d.Heads)
	rows := map[string][]string{}
	for _, r := range d.Rows {
		rows[r[0]] = r[1:]
	}
	for frame, want := range map[string][]string{
		"0": {"0.000", "0.0", "0"}, "66": {"0.550", "90.0", "230"}, "78": {"0.650", "90.0", "230"}, "seam": {"1.200", "0.0", "0"},
		"36": {"0.300", "68.8", "175"}, // (36/66)-th of the time: 0.58477 of 81 %, whose root is 0.68823
	} {
		assert.Equal(t, want, rows[frame], frame)
	}
	assert.Len(t, d.Rows, 13-1+2, "of the mark in the rest only its ends are told")
	assert.Equal(t, []string{"rim: from 0 % to 81 % and back, by the 3-4-5 law. Dimmer taken to be by the square law: its light is the square of its dial. By the left hand."}, d.Notes)
	assert.Equal(t, "0 % to 81 %, see dimmers", p.Lamps.Rows[1][2])
	assert.Empty(t, lantern(t).Dimmers.Rows)
}
