package page

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/spec/rig"
)

// maxAfter is the work, in time of the processors, that goes on after whoever asked has
// gone: 50 ms on a machine that does nothing else, and where others share its caches four
// times that. To plan that shot takes more than a second.
const maxAfter = 200 * time.Millisecond

// A plan that takes long ends wherever it is: while the verifier steps along, while the
// picture is looked at, while what would help is tried.
func TestAPlanThatIsGivenUpEndsAtOnce(t *testing.T) {
	d := heavilyBrowsed(t)
	text, _ := heavyShot(t)
	long := strings.Replace(text, `"1440 frames"`, `"10000 frames"`, 1)
	require.NotEqual(t, text, long)
	for _, quick := range []bool{true, false} {
		ended := 0
		for share := range 5 {
			ctx, giveUp := context.WithCancel(t.Context())
			var at time.Duration
			timer := time.AfterFunc(time.Duration(20+60*share)*time.Millisecond, func() {
				at = worked()
				giveUp()
			})
			_, err := d.plan(ctx, question{Text: long, Quick: quick})
			if timer.Stop() || err == nil {
				break // it was planned before
			}
			after := worked() - at
			ended++
			require.ErrorIs(t, err, context.Canceled)
			assert.Less(t, after, maxAfter, "quick %v, given up after %d ms", quick, 20+60*share)
			d.plans.drop()
		}
		assert.Positive(t, ended)
	}
}

// worked is the time that processors have spent on this process.
func worked() time.Duration {
	var u syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &u) // it knows this process
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// For whoever has gone nothing is begun: no new shot is planned, no clip is read.
func TestNothingIsWorkedOutForWhoHasGone(t *testing.T) {
	d := heavilyBrowsed(t)
	dir := filepath.Dir(d.shot)
	files, err := starter.Clip()
	require.NoError(t, err)
	for name, data := range files {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), data, 0o600))
	}
	gone, leave := context.WithCancel(t.Context())
	leave()
	for _, fully := range []bool{false, true} {
		_, err := d.Server.kind(gone, startQuestion{Controller: rig.DrivenKinds()[0].String(), Kind: lantern, Fully: fully})
		assert.ErrorIs(t, err, context.Canceled)
	}
	_, err = d.sequence(gone, sequenceQuestion{starter.SequenceName})
	assert.ErrorIs(t, err, context.Canceled)
}
