package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
	o := &DriveOptions{}
	c := NewCmdDrive(Streams{}, func(got *DriveOptions) error { o = got; return nil })
	require.NoError(t, c.ParseFlags([]string{"--keep-rate"}))
	o.Shot.Shot, o.Shot.set = shotFile, c.Flags()
	j, err := o.Shot.prepare(nil)
	require.NoError(t, err)
	s := newSession(o, j)
	var out bytes.Buffer
	s.out = &out
	return s, rigFile, &out
}

// A pass of 30 s that took 0.041 s longer is 1367 parts in a million slow; with
// 300 of them known already it would be 1667.
func TestKeepRate(t *testing.T) {
	for known, want := range map[string]string{`"0 %"`: `"0.1367 %"`, `"0.03 %"`: `"0.1667 %"`} {
		text := strings.Replace(string(starter.Rig()), `"0 %"`, known, 1)
		s, file, out := measured(t, string(starter.Shot()), text)
		require.NoError(t, s.keepRate(drive.Pass{Executed: 30.041, Planned: 30}))
		got, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, strings.Replace(text, known, want, 1), string(got))
		assert.Contains(t, out.String(), "It took 30.041 s for 30.000 s: rate-error = "+want)
	}
}

func TestARateThatIsNotKept(t *testing.T) {
	s, file, _ := measured(t, string(starter.Shot()), string(starter.Rig()))
	for _, c := range []struct {
		pass drive.Pass
		want string
	}{
		{drive.Pass{}, "the last take did not run through"},
		{drive.Pass{Executed: 30, Planned: 30, Held: true}, "the last take did not run through"},
		{drive.Pass{Executed: 30, Planned: 30, End: drive.Stopped}, "the last take did not run through"},
		{drive.Pass{Executed: 5, Planned: 5}, "the take lasted 5.0 s and should last 20 s or more; add --rounds 17"},
		{drive.Pass{Executed: 31.8, Planned: 30}, `rate-error "6.0000 %" must be from -5 % to 5 %`},
	} {
		assert.ErrorContains(t, s.keepRate(c.pass), c.want)
	}
	got, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(starter.Rig()), string(got))
	s.o.Shot.Shot = ""
	assert.ErrorContains(t, s.keepRate(drive.Pass{Executed: 30, Planned: 30}), "there is no rig file to keep the rate in")
}
