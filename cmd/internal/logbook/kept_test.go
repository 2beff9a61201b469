package logbook

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive/takelog"
	"seamrail/motion/edit/selects"
)

// Without a named shot one log holds takes of many shots, of which only those of
// this plan count.
func TestWhoseTakes(t *testing.T) {
	log := takelog.Log{Takes: []takelog.Take{
		{Number: 1, Marks: takelog.Marks{Keep: true, Clip: "A001.mov", Notes: []string{"steam"}}, Begin: takelog.Record{Plan: "mine"}, End: takelog.Record{Rounds: 3}},
		{Number: 2, Begin: takelog.Record{Plan: "mine"}},
		{Number: 3, Marks: takelog.Marks{Keep: true}, Begin: takelog.Record{Plan: "other"}, Cut: true},
		{Number: 4, Marks: takelog.Marks{Keep: true}, Begin: takelog.Record{Plan: "mine"}, End: takelog.Record{Rounds: 2, Held: true}},
		{Number: 1, Marks: takelog.Marks{Keep: true}, Begin: takelog.Record{Plan: "mine", Virtual: true}, End: takelog.Record{Rounds: 3}},
	}}
	first := selects.Filmed{Number: 1, Plan: "mine", Rounds: 3, Clip: "A001.mov", Notes: []string{"steam"}}
	other := selects.Filmed{Number: 3, Plan: "other", Cut: true}
	held := selects.Filmed{Number: 4, Plan: "mine", Rounds: 2, Held: true}
	require.Equal(t, []selects.Filmed{first, other, held}, wanted(log, true, "mine"))
	require.Equal(t, []selects.Filmed{first, held}, wanted(log, false, "mine"))
}
