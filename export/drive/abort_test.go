package drive_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
)

// goesOn is an operator who aborts a take in mid-pass, homes, and runs the next
// to its end. Two stops at once are an abort.
func goesOn(first drive.RequestKind) []cue {
	ask := func(k drive.RequestKind) drive.Request { return drive.Request{Kind: k} }
	return []cue{
		{drive.Unsettled, time.Second, ask(first)},
		{drive.Ready, time.Second, ask(drive.Go)},
		{drive.Running, 1700 * time.Millisecond, ask(drive.Stop)},
		{drive.Running, 1702 * time.Millisecond, ask(drive.Stop)},
		{drive.Unsettled, 5 * time.Second, ask(drive.Home)},
		{drive.Ready, time.Second, ask(drive.Go)},
		{drive.Ready, 20 * time.Second, ask(drive.Quit)},
	}
}

// Whatever a board that is not known to greet says after an abort, and whenever
// it says it, the abort is one, nothing else is, and the run goes on.
func TestAbortWithoutAGreeting(t *testing.T) {
	says := []string{"", "Toaster 7 here", "[MSG:Reset to continue]", "ALARM:3", "ok", "ok\r\nok\r\nok", "error:9",
		"\r\nBoard 2.0 [help]\r\n[MSG:locked]\r\nALARM:3\r\nok", "\xff\xfe\x00"}
	for n, text := range says {
		for _, ms := range []int{0, 20, 150, 199, 201, 250, 300, 450, 900, 1500, 3000} {
			name := fmt.Sprintf("%q after %d ms", text, ms)
			s, r := takeOf(t, rig.Buffered, func(s *scene) {
				s.tr.Plan().Rig.Controller.Greeting = ""
				s.options.Takes, s.options.Settle = 0, drive.AskOperator
				s.w.script = goesOn(drive.Here)
				s.p.greets, s.p.boots = "", n%2 == 0
				s.p.aborted = func() { s.at(ms, func() { s.p.says(text) }) }
			})
			require.NoError(t, r.Err(), "%s: %v %v", name, s.w.states, s.w.said)
			require.Empty(t, s.w.script, name)
			require.NotContains(t, s.log.String(), `"record":"lost"`, name)
			l := s.read()
			require.Len(t, l.Takes, 2, name)
			require.Equal(t, "aborted", l.Takes[0].End.Outcome, name)
			require.Equal(t, "finished", l.Takes[1].End.Outcome, name)
			require.True(t, r.Known, name)
		}
	}
}

// The rig of software, which is in an alarm when it is reset in motion, goes on
// too, whether it says something of itself or nothing; one whose reset is a start
// from power-on as well.
func TestVirtualAbort(t *testing.T) {
	for _, greeting := range []string{"", "Bench", "Board 1 ['?' for help]"} {
		for _, known := range []string{"", greeting} {
			for _, restart := range []time.Duration{0, 3 * time.Millisecond, 300 * time.Millisecond} {
				tr := smooth(t, rig.Buffered, 96)
				tr.Plan().Rig.Controller.Greeting = known
				aborts := time.Duration(0)
				setUp := func(faults ...virtual.Fault) *machine {
					m := onVirtual(t, tr, 1, func(o *virtual.Options) { o.Greeting, o.Faults = greeting, faults })
					m.options.Takes, m.options.Settle = 0, drive.AskOperator
					m.w.script = goesOn(drive.Home)
					m.w.entered = func(s drive.State) {
						if s == drive.Running && aborts == 0 {
							aborts = m.rig.Now() + 1702*time.Millisecond
						}
					}
					return m
				}
				m := setUp()
				r := m.run()
				if restart > 0 {
					m = setUp(virtual.Fault{Kind: virtual.Restart, At: aborts + restart})
					r = m.run()
				}
				name := fmt.Sprintf("greets %q, known %q, starts anew after %v", greeting, known, restart)
				require.NoError(t, r.Err(), "%s: %v", name, m.w.said)
				require.Empty(t, m.w.script, name)
				require.NotContains(t, m.log.String(), `"record":"lost"`, name)
				l := m.read()
				require.Len(t, l.Takes, 2, name)
				require.Equal(t, "aborted", l.Takes[0].End.Outcome, name)
				require.Equal(t, "finished", l.Takes[1].End.Outcome, name)
			}
		}
	}
}
