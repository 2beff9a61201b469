package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/cue"
)

// The table reaches its 50 deg/s in whole frames before frame 0, gathering speed evenly
// from rest, so that it sets out half of what it would have turned at pace; 60 degrees
// on it stands at each next round, and all round it 360 are 0.
func TestTapeMarks(t *testing.T) {
	got := lantern(t).Tape
	require.Len(t, got, 2)
	assert.Equal(t, "rail, mm from home: 40.00 (the take begins, frame 0, lower end of the loop, the take ends); 100.00 (upper end of the loop).", got[0])
	up := pageOf(t, lanternMoves).Moves.Rows
	from, to := "", ""
	for _, r := range up {
		switch {
		case strings.HasPrefix(r[5], "gathers"):
			from = r[1]
		case strings.HasPrefix(r[5], "slows"):
			to = r[2]
		}
	}
	begins := place(360 + amountOf(t, strings.TrimSuffix(from, " deg")))
	assert.Equal(t, "table, deg from its 0: "+begins+" (the take begins); 0.00 (frame 0); 60.00 (frame 0 of the next round); "+
		place(amountOf(t, strings.TrimSuffix(to, " deg")))+" (the take ends).", got[1])
}

// A scale along the rail has its 0 where the carriage stands at home, and one that stays
// has one mark.
func TestTapeIsCountedFromHome(t *testing.T) {
	moved := strings.Replace(lanternMoves, `move = "turn"
turns = "1/6"
law = "uniform"`, `move = "hold"
at = "30 deg"`, 1)
	assert.Equal(t, "table, deg from its 0: 30.00, where it stays.", pageOf(t, moved).Tape[1])
	tr, s := made(t, moved)
	tr.Plan().Axes[0].Rig.Home = 10
	assert.Contains(t, Of(tr.Plan(), s, cue.Sheet{}).Tape[0], "rail, mm from home: 30.00 (the take begins")
}

// They lead the sheet, below what does not hold.
func TestTapeMarksLead(t *testing.T) {
	p := lantern(t)
	p.Fails = []string{"Will not do, focus: it is out."}
	parts, err := partsOf(p)
	require.NoError(t, err)
	one, _ := parts.onePage(newPress(), p)
	for _, bands := range [][]band{one, parts.pages(p)} {
		second, ok := bands[1].left[0].(paragraphs)
		require.True(t, ok)
		assert.Equal(t, tapeName, second.name)
	}
	var html strings.Builder
	require.NoError(t, HTML(&html, p))
	fails, tape, seen := strings.Index(html.String(), failsName), strings.Index(html.String(), tapeName), strings.Index(html.String(), p.Groups[0].Name)
	assert.True(t, 0 < fails && fails < tape && tape < seen)
}
