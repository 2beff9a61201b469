package takelog_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/takelog"
)

// TestWhatTheLogTakesOfWords: a line in plain characters, not empty, not longer than the
// list has room for; a clip is a name without folders.
func TestWhatTheLogTakesOfWords(t *testing.T) {
	for _, x := range []struct {
		of         func(string) (string, error)
		text, kept string
		fault      string
	}{
		{name, " Mara ", "Mara", ""},
		{name, "", "", "the driver is empty; say it in a word or more"},
		{name, strings.Repeat("é", takelog.MaxName), strings.Repeat("é", takelog.MaxName), ""},
		{name, strings.Repeat("a", takelog.MaxName+1), "", "the driver has 61 characters, and the log takes 60; say it shorter"},
		{words, strings.Repeat("a", takelog.MaxWords), strings.Repeat("a", takelog.MaxWords), ""},
		{words, strings.Repeat("a", takelog.MaxWords+1), "", "the reason has 201 characters, and the log takes 200; say it shorter"},
		{takelog.ClipName, "A003_C012.mov", "A003_C012.mov", ""},
		{takelog.ClipName, `card\A003_C012.mov`, "", `the clip "card\\A003_C012.mov" has folders in it; the name of the file alone is what the edit looks for`},
		{takelog.ClipName, "card/A003", "", `the clip "card/A003" has folders in it; the name of the file alone is what the edit looks for`},
		{takelog.ClipName, " ", "", "the clip is empty; say it in a word or more"},
	} {
		got, err := x.of(x.text)
		if x.fault != "" {
			assert.EqualError(t, err, x.fault)
			continue
		}
		assert.NoError(t, err, x.text)
		assert.Equal(t, x.kept, got)
	}
}

func name(text string) (string, error)  { return takelog.Name("the driver", text) }
func words(text string) (string, error) { return takelog.Words("the reason", text) }

// TestATakeForPrograms: what was cut has no rounds, what has no mark no sync; a mark that
// nobody has looked for has no frame, and one that was not seen after the take no last.
func TestATakeForPrograms(t *testing.T) {
	cut := takelog.Take{Number: 3, Cut: true, Begin: takelog.Record{Rounds: 2, Planned: 9, Driver: "Mara"}}
	f := takelog.FactOf(cut)
	assert.Nil(t, f.Rounds)
	assert.Nil(t, f.Sync)
	assert.Equal(t, 9.0, f.Planned, "what was asked for")
	assert.Equal(t, "Mara", f.Driver)

	whole := takelog.Take{
		Number: 4, Begin: cut.Begin, End: takelog.Record{Rounds: 1, Planned: 5},
		Marks: takelog.Marks{
			Late: map[string]float64{"b": 0.2, "a": 0.1},
			Sync: takelog.Sync{Mark: "lamp", First: -2, Out: 0.01, Second: 7, SecondOut: 0.02},
		},
	}
	f = takelog.FactOf(whole)
	assert.Equal(t, int64(1), *f.Rounds)
	assert.Equal(t, 5.0, f.Planned, "that of the rounds there were")
	assert.Equal(t, []takelog.HandFact{{Hand: "a", Late: 0.1}, {Hand: "b", Late: 0.2}}, f.Hands)
	assert.Equal(t, &takelog.SyncFact{Mark: "lamp", First: -2, Out: 0.01, Second: 7, SecondOut: 0.02}, f.Sync)

	whole.Sync.Saw, whole.Sync.Frame = true, 0
	f = takelog.FactOf(whole)
	assert.Equal(t, int64(0), *f.Sync.Seen, "seen in the very first frame")
	assert.Nil(t, f.Sync.Last)
	whole.Sync.Last = 900
	assert.Equal(t, int64(900), *takelog.FactOf(whole).Sync.Last)
	text, err := json.Marshal(f)
	require.NoError(t, err)
	assert.Contains(t, string(text), `"seen_frame":0,"seen_last_frame":null`)
}

// TestMarksOfATake: both are told with the take that they were made in, and so is what was
// seen of them; the last take of the log is that of metal or of software, as it is asked.
func TestMarksOfATake(t *testing.T) {
	d := written(t, []takelog.Record{
		{Kind: takelog.Begun, Take: 1, Rounds: 1},
		{Kind: takelog.Synced, Take: 1, Mark: "lamp", MarkAt: -2, MarkOut: 0.01},
		{Kind: takelog.Synced, Take: 1, Mark: "lamp", MarkAt: 7, MarkOut: 0.02, Second: true},
		{Kind: takelog.Ended, Take: 1, Rounds: 1, Outcome: "finished"},
		{Kind: takelog.Sighted, Take: 1, SawFirst: 12, SawLast: 900},
		{Kind: takelog.Clipped, Take: 1, Clip: "A003"},
		{Kind: takelog.Refused, Take: 1, Why: "a hand in the picture"},
	})
	l := read(t, d.Bytes())
	require.Len(t, l.Takes, 1)
	assert.Equal(t, takelog.Sync{Mark: "lamp", First: -2, Out: 0.01, Second: 7, SecondOut: 0.02, Saw: true, Frame: 12, Last: 900}, l.Takes[0].Sync)
	assert.Equal(t, "A003", l.Takes[0].Clip)
	assert.Equal(t, "a hand in the picture", l.Takes[0].Why)
	assert.False(t, l.Takes[0].Keep)
	last, ok := l.LastTake(false)
	assert.True(t, ok)
	assert.Equal(t, 1, last.Number)
	_, ok = l.LastTake(true)
	assert.False(t, ok, "none was made of software")
}
