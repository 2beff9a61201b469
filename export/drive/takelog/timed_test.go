package takelog_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive/takelog"
)

// The last word on a hand counts, one hand not touching the other; a hand that
// was on time is told of too.
func TestTimedHandsReadBack(t *testing.T) {
	records := append(day(),
		takelog.Record{Kind: takelog.Timed, Take: 1, Hand: "left", Late: 0.08},
		takelog.Record{Kind: takelog.Timed, Take: 1, Hand: "right", Late: -0.02},
		takelog.Record{Kind: takelog.Timed, Take: 1, Hand: "left"},
		takelog.Record{Kind: takelog.Timed, Take: 9, Late: 1})
	l := read(t, written(t, records).Bytes())
	require.Equal(t, map[string]float64{"left": 0, "right": -0.02}, l.Takes[0].Late)
	require.Nil(t, l.Takes[1].Late)
	require.Equal(t, 1, l.Torn, "there is no take 9")
}
