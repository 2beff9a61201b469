package drive_test

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/export/drive/virtual"
	"seamrail/export/drive/wirelog"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
)

// kept is a run with all that went over its wire.
type kept struct {
	options drive.Options
	result  drive.Result
	log     string
	text    string
	opened  time.Time
}

// keptRun is a run of a rig of software that is asked for things at times of the rig.
func keptRun(t require.TestingT, m *machine, script []virtual.Asking) kept {
	for _, a := range script {
		m.world.Ask(a)
	}
	k := kept{options: m.options, opened: m.world.Now()}
	r := wirelog.NewRecorder(m.world)
	k.result = drive.Run(r, m.options)
	k.log = m.log.String()
	var text bytes.Buffer
	require.NoError(t, r.Save(&text, wirelog.Head{Virtual: true, Kind: "a kind", Baud: 115200, Words: []string{"drive", "a b\n"}, Files: []wirelog.File{{Name: "x.toml", Text: []byte("# ü\\\r\n\tx\n")}}}))
	k.text = text.String()
	return k
}

// played is the same run on the record.
func (k kept) played(t require.TestingT, text string) (drive.Result, string, error) {
	rec, err := wirelog.Read("a.wire", strings.NewReader(text))
	require.NoError(t, err)
	require.True(t, rec.Whole())
	log := &paper{}
	o := k.options
	o.Observer, o.Log = &witness{ask: func(time.Duration, drive.Request) {}}, takelog.NewWriter(log, nil)
	p := wirelog.NewPlayback(rec, k.opened)
	r := drive.Run(p, o)
	return r, log.String(), p.Done()
}

// A run plays back to the byte: whatever the operator asks for and when, it ends alike, its
// log is the same, and nothing is left over. A byte that is not as it was is named, with
// its line.
func TestWhatWentOverTheWirePlaysBack(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		t.Run(kind.String(), func(t *testing.T) {
			tr := smooth(t, kind, 48)
			source := onVirtual(t, tr, 2, nil).options.Source
			many.Check(t, 6, func(rt *rapid.T) {
				m := onVirtualWith(t, tr, 2, source, nil)
				var script []virtual.Asking
				for range rapid.IntRange(0, 3).Draw(rt, "requests") {
					script = append(script, virtual.Asking{
						At:      time.Duration(rapid.IntRange(0, 8000).Draw(rt, "at")) * time.Millisecond,
						Request: drive.Request{Kind: rapid.SampledFrom([]drive.RequestKind{drive.Stop, drive.Resume, drive.Finish, drive.Restart, drive.Quit}).Draw(rt, "kind")},
					})
				}
				for at := 20; at < 60; at++ { // nobody rests for ever
					script = append(script, virtual.Asking{At: time.Duration(at) * time.Second, Request: drive.Request{Kind: drive.Quit}})
				}
				k := keptRun(rt, m, script)
				result, log, err := k.played(rt, k.text)
				require.NoError(rt, err)
				require.Equal(rt, k.result, result)
				require.Equal(rt, k.log, log)
			})
		})
	}
}

// rowsOf are the lines of a record that are of something, by their number from 1.
func rowsOf(text string, what wirelog.What) (out []int) {
	for i, line := range strings.Split(text, "\n") {
		if _, rest, ok := strings.Cut(line, " "); ok && strings.HasPrefix(rest, string(what)) && line[0] >= '0' && line[0] <= '9' {
			out = append(out, i+1)
		}
	}
	return out
}

// changed is a record with one line of it made anew.
func changed(text string, line int, how func(string) string) string {
	lines := strings.Split(text, "\n")
	lines[line-1] = how(lines[line-1])
	return strings.Join(lines, "\n")
}

func TestARecordThatIsNotTheRunIsRefused(t *testing.T) {
	k := keptRun(t, onVirtual(t, smooth(t, rig.Buffered, 48), 1, nil), nil)
	require.Equal(t, drive.Finished, k.result.End)
	sent, heard := rowsOf(k.text, wirelog.Sent), rowsOf(k.text, wirelog.Heard)
	require.NotEmpty(t, heard)
	for _, n := range []int{0, len(sent) / 2, len(sent) - 1} {
		_, _, err := k.played(t, changed(k.text, sent[n], func(s string) string { return s + "X" }))
		require.ErrorContains(t, err, fmt.Sprintf("line %d, ", sent[n]), "a byte more was sent then")
	}
	// What it answered otherwise the run finds out, or it ends as another run.
	heard = slices.DeleteFunc(heard, func(n int) bool { return !strings.HasSuffix(strings.Split(k.text, "\n")[n-1], `< ok\r\n`) })
	result, _, _ := k.played(t, changed(k.text, heard[len(heard)/2], func(s string) string { return strings.ReplaceAll(s, "ok", "error:9") }))
	require.NotEqual(t, k.result.End, result.End)

	end := len(strings.Split(k.text, "\n")) - 1
	late := changed(k.text, end, func(s string) string {
		at, _, _ := strings.Cut(s, " ")
		return at + ` > $$\n` + "\n" + s
	})
	_, _, err := k.played(t, late)
	require.ErrorContains(t, err, fmt.Sprintf(`line %d, `, end))
	require.ErrorContains(t, err, `the run is over, and in the record it sent "$$\n"`)
	_, _, err = k.played(t, strings.Replace(late, " > ", " < ", 1))
	require.Error(t, err)
}

// A host that is later than in the record by no more than the slack is answered as much
// later; beyond that it is refused.
func TestALateHostIsRefused(t *testing.T) {
	row := func(us int64, what wirelog.What, b string) wirelog.Row {
		return wirelog.Row{Line: 1, At: time.Duration(us) * time.Microsecond, What: what, Bytes: []byte(b)}
	}
	rec := wirelog.Record{Rows: []wirelog.Row{row(1000, wirelog.Sent, "?"), row(3000, wirelog.Heard, "ok"), row(3000, wirelog.Ending, "")}}
	noon := time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC)
	after := func(late time.Duration) (drive.Event, time.Duration, error) {
		p := wirelog.NewPlayback(rec, noon)
		assert.Equal(t, drive.Event{}, p.Wait(noon.Add(time.Millisecond+late)))
		_, _ = p.Write([]byte("?"))
		e := p.Wait(noon.Add(time.Hour))
		return e, p.Now().Sub(noon), p.Done()
	}
	e, at, err := after(wirelog.Slack)
	require.NoError(t, err)
	assert.Equal(t, "ok", string(e.Bytes))
	assert.Equal(t, 3*time.Millisecond+wirelog.Slack, at)

	p := wirelog.NewPlayback(rec, noon)
	assert.Equal(t, drive.Gone, p.Wait(noon.Add(time.Millisecond+wirelog.Slack+1)).Kind)
	require.ErrorContains(t, p.Done(), `the host sends nothing for 50ms more, and in the record it sent "?"`)
	p = wirelog.NewPlayback(rec, noon)
	n, err := p.Write([]byte("?!"))
	require.NoError(t, err)
	require.Equal(t, 1, n)
	_, err = p.Write([]byte("!"))
	require.Error(t, err)
	require.ErrorContains(t, p.Done(), `the host sends "!", and in the record it sent nothing before it heard "ok"`)
}
