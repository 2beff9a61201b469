package session

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/starter"
	"seamrail/export/drive"
)

// measured is a session on a shot and a rig file in a folder, with an option to
// put the rig inside the shot.
func measured(t *testing.T, shotText, rigText string) (*session, string, *bytes.Buffer) {
	t.Helper()
	dir := t.TempDir()
	shotFile, rigFile := filepath.Join(dir, starter.ShotName), filepath.Join(dir, starter.RigName)
	require.NoError(t, os.WriteFile(shotFile, []byte(shotText), 0o600))
	require.NoError(t, os.WriteFile(rigFile, []byte(rigText), 0o600))
	o := &Options{Source: job.Source{Shot: shotFile}, KeepRate: true}
	j, err := o.Source.Job(nil)
	require.NoError(t, err)
	s := newSession(o, j)
	var out bytes.Buffer
	s.out = &out
	return s, rigFile, &out
}

// laps is a take of so many rounds of 1.5 s on a clock that is slow, every beginning
// of a round being late by once.
func laps(rounds int64, slow, once float64) drive.Pass {
	p := drive.Pass{Rounds: rounds, RoundForetold: 1.5, Foretold: 1.5 * float64(rounds)}
	p.Executed = p.Foretold*(1+slow) + once
	for r := int64(1); r < rounds; r++ {
		p.Laps = append(p.Laps, drive.Lap{Round: r, Seconds: float64(r)*p.RoundForetold*(1+slow) + once})
	}
	return p
}

// What driving is told to expect is what the choice of blocks foretells, of more and
// of fewer rounds by as many of its rounds.
func TestForetold(t *testing.T) {
	s, _, _ := measured(t, string(starter.Shot()), string(starter.Rig()))
	x := s.job.Expected()
	require.NotNil(t, x)
	require.NotEqual(t, x.Planned, x.Executed, "a timer that counts whole ticks is not quite on time")
	foretold := s.options(nil).Foretold
	require.NotNil(t, foretold)
	planned := int64(s.job.Plan.Rounds)
	require.Equal(t, x.Executed, foretold(planned))
	require.InDelta(t, x.Executed+5*x.RoundExecuted, foretold(planned+5), 1e-9)
	require.InDelta(t, x.RoundExecuted, foretold(2)-foretold(1), 1e-9)
}

// A clock that is 1367 parts in a million slow is kept as that, whatever each take
// is late by once; with 300 of them known already it would be 1667.
func TestKeepRate(t *testing.T) {
	for known, want := range map[string]string{`"0 %"`: `"0.1367 %"`, `"0.03 %"`: `"0.1667 %"`} {
		text := strings.Replace(string(starter.Rig()), `"0 %"`, known, 1)
		s, file, out := measured(t, string(starter.Shot()), text)
		s.passes = []drive.Pass{laps(20, 1367e-6, 0.04)}
		require.NoError(t, s.keepRate())
		got, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, strings.Replace(text, known, want, 1), string(got))
		assert.Contains(t, out.String(), "The rate error is "+strings.Trim(want, `"`)+" +/- 0.0033 %, from 19 times: rate-error = "+want)
	}
}

// What a take is late by once is no rate, and one that is known well enough stays.
func TestARateThatIsKnown(t *testing.T) {
	s, file, out := measured(t, string(starter.Shot()), string(starter.Rig()))
	s.passes = []drive.Pass{laps(20, 10e-6, 0.04)}
	require.NoError(t, s.keepRate())
	assert.Equal(t, "The rate error was measured as 0.0010 % +/- 0.0033 %. That does not tell it from the 0.0000 % that is known, which stays.\n", out.String())
	got, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(starter.Rig()), string(got))
}

func TestARateThatIsNotKept(t *testing.T) {
	s, file, _ := measured(t, string(starter.Shot()), string(starter.Rig()))
	held, stopped := laps(20, 0.001, 0), laps(20, 0.001, 0)
	held.Held, stopped.End = true, drive.Stopped
	for _, c := range []struct {
		passes []drive.Pass
		want   string
	}{
		{nil, "no take ran through"},
		{[]drive.Pass{{}}, "no take ran through"},
		{[]drive.Pass{held}, "no take ran through"},
		{[]drive.Pass{stopped}, "no take ran through"},
		{[]drive.Pass{laps(3, 0.001, 0)}, "3 rounds cannot tell a clock that is slow from what every take is late by once; film 19 rounds or more in one take"},
		{[]drive.Pass{laps(20, 0.06, 0)}, `rate-error "6.0000 %" must be from -5 % to 5 %`},
	} {
		s.passes = c.passes
		assert.ErrorContains(t, s.keepRate(), c.want)
	}
	got, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(starter.Rig()), string(got))
	s.o.Source.Shot, s.passes = "", []drive.Pass{laps(20, 0.001, 0)}
	assert.ErrorContains(t, s.keepRate(), "there is no rig file to keep the rate in")
}
