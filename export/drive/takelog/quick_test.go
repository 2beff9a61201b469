package takelog

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// Every line that Writer writes without an escape in it is read quickly.
func TestWhatIsWrittenIsReadQuickly(t *testing.T) {
	at := time.Date(2026, 3, 14, 12, 0, 0, 123456789, time.FixedZone("", 3600))
	for _, r := range []Record{
		{Kind: Begun, Time: at, Take: 3, Shot: "läntern.toml", Plan: "0123", Rig: "bench", Rounds: 3, Planned: 12.0123},
		{
			Kind: Ended, Time: at, Take: 3, Rounds: 2, Planned: 1e-9, Executed: 1e300, Uncertainty: 0.002, Foretold: 12, Held: true, Outcome: "finished",
			Detail: "all of it", Known: true, Worst: []Worst{{"rail", -0.01, "mm"}, {"table", 0, "deg"}},
		},
		{Kind: Begun, Take: 1, Virtual: true}, {Kind: Keeper, Take: 1, Keep: true}, {Kind: Noted, Note: "steam"}, {Kind: Timed, Hand: "left", Late: -0.08}, {Kind: Lost}, {Kind: Settled},
		{Kind: Begun, Take: 4, Driver: "m", Group: "plates", Pass: "clean plate"}, {Kind: Clipped, Take: 4, Clip: "A001C004.mov"}, {Kind: Refused, Take: 4, Why: "glare"},
	} {
		line, err := json.Marshal(r)
		require.NoError(t, err)
		var got Record
		require.True(t, fresh().quick(line, &got), "%s", line)
		same(t, line, got)
	}
}

// What it does not know it leaves to others.
func TestWhatIsNotReadQuickly(t *testing.T) {
	for _, line := range []string{
		``, `{`, `{}`, `null`, `{"record"`, `{"record":`, `{"record":"x`, `{"record":"x"`, `{"record":"x"}x`, `{"record":"x",}`, `{"other":1}`,
		`{"record":"a\\n"}`, "{\"note\":\"\t\"}", "{\"note\":\"\xff\"}", `{"note":null}`, `{"take":01}`, `{"take":+1}`, `{"take":1.5}`, `{"take":-}`,
		`{"take":1e3}`, `{"take":99999999999999999999}`, `{"planned_s":.5}`, `{"planned_s":1.}`, `{"planned_s":1.e3}`, `{"planned_s":Inf}`,
		`{"planned_s":1e999}`, `{"planned_s":1-1}`, `{"planned_s":--1}`, `{"planned_s":00}`, `{"keep":yes}`, `{"worst":{}}`, `{"worst":[]}`, `{"worst":[{"axis":1}]}`,
		`{"worst":[{"axis":"a","more":1}]}`, `{"worst":[{"axis":"a"}`, `{"cue_shift_s":{"left":1}}`, `{"time":"noon"}`, `{"worst":[{"axis":"a"}],"worst":[{"unit":"b"}]}`,
	} {
		require.False(t, fresh().quick([]byte(line), &Record{}), line)
	}
}

func fresh() *decoder { return &decoder{map[string]string{}} }

// same holds what was read quickly against what encoding/json reads.
func same(t *testing.T, line []byte, got Record) {
	t.Helper()
	var want Record
	require.NoError(t, json.Unmarshal(line, &want), "%s", line)
	require.True(t, want.Time.Equal(got.Time))
	_, a := want.Time.Zone()
	_, b := got.Time.Zone()
	require.Equal(t, a, b)
	want.Time = got.Time
	require.Equal(t, want, got, "%s", line)
}

// Whatever is read quickly is what encoding/json reads.
func FuzzQuick(f *testing.F) {
	f.Add(`{"record":"begin","time":"2026-03-14T12:00:01Z","take":1,"rounds":3,"planned_s":12}`)
	f.Add(`{"record":"end","worst":[{"axis":"rail","value":-0.1e-3,"unit":"mm"}],"position_known":true}`)
	f.Fuzz(func(t *testing.T, line string) {
		var got Record
		if fresh().quick([]byte(line), &got) {
			same(t, []byte(line), got)
		}
	})
}
