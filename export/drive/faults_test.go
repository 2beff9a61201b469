package drive_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/motion/controller/program"
	"seamrail/motion/spec/rig"
)

// fault is one thing that goes wrong, when, and the state it ends in.
type fault struct {
	name   string
	kind   rig.ControllerKind
	breaks func(s *scene)
	want   drive.End
	said   string // in the detail
	still  bool   // nothing may have moved at all
}

// at does something so many ms after the port was opened.
func (s *scene) at(ms int, do func()) { s.p.in(time.Duration(ms)*time.Millisecond, do) }

// midPass is in the second round, in ms from the opening of the port.
const midPass = 2600

func faults() []fault {
	return []fault{
		{name: "port vanishes before it is used", breaks: func(s *scene) { s.p.vanish() }, want: drive.PortLost, said: "input/output", still: true},
		{name: "port vanishes in mid-pass", breaks: func(s *scene) { s.at(midPass, s.p.vanish) }, want: drive.PortLost},
		{name: "port vanishes in mid-line", breaks: func(s *scene) { s.p.deafAfter = 1000 }, want: drive.PortLost},
		{name: "vanishes, one line one answer", kind: rig.Lockstep, breaks: func(s *scene) { s.at(midPass, s.p.vanish) }, want: drive.PortLost},
		{name: "mute from the start", breaks: func(s *scene) { s.p.mute = true }, want: drive.Silent, said: "no greeting", still: true},
		{name: "falls silent", breaks: func(s *scene) { s.at(midPass, func() { s.p.mute = true }) }, want: drive.Silent},
		{name: "falls silent, one line one answer", kind: rig.Lockstep, breaks: func(s *scene) { s.at(midPass, func() { s.p.mute = true }) },
			want: drive.Silent, said: "no answer to line"},
		{name: "garbage", breaks: func(s *scene) {
			for i := range 40 {
				s.at(midPass+i*5, func() { s.p.raw([]byte("\xff\x00\x81\r\n")) })
			}
		}, want: drive.Garbled, said: "cannot be read"},
		{name: "garbage without an end of line", breaks: func(s *scene) {
			s.at(midPass, func() { s.p.raw(make([]byte, 4000)) })
		}, want: drive.Unmatched},
		{name: "garbage at the start", breaks: func(s *scene) {
			s.p.garbles = true // the wrong speed of the wire
		}, want: drive.Garbled, said: "speed of the wire", still: true},
		{name: "an answer is lost", breaks: func(s *scene) { s.p.tamper[60] = func(*puppet) {} }, want: drive.Unmatched, said: "an answer was lost"},
		{name: "an answer is lost, one line one answer", kind: rig.Lockstep, breaks: func(s *scene) { s.p.tamper[60] = func(*puppet) {} },
			want: drive.Silent},
		{name: "an answer comes twice", breaks: func(s *scene) {
			s.p.buffer = 256 // it holds more than the rig file says, and so loses nothing
			s.p.tamper[60] = twice
		}, want: drive.Unmatched, said: "an answer more"},
		// One line too many in a full buffer is cut, and makes no sense.
		{name: "an answer comes twice, and bytes are lost", breaks: func(s *scene) { s.p.tamper[60] = twice },
			want: drive.Refused, said: "error:2 on line"},
		{name: "an answer comes twice, one line one answer", kind: rig.Lockstep,
			breaks: func(s *scene) { s.p.tamper[60] = twice }, want: drive.Unmatched},
		{name: "the last answer comes twice", breaks: func(s *scene) { s.p.tamper[lastAnswer(s.t)] = twice }, want: drive.Unmatched},
		{name: "a line is refused", breaks: func(s *scene) { s.p.tamper[60] = func(p *puppet) { p.says("error:22") } },
			want: drive.Refused, said: `error:22 on line 60, "G1 `},
		{name: "errors that stay", kind: rig.Lockstep, breaks: func(s *scene) {
			for n := 60; n < 400; n++ {
				s.p.tamper[n] = func(p *puppet) { p.says("Error: latched") }
			}
		}, want: drive.Refused, said: "Error: latched on line"},
		{name: "the homing line is refused", breaks: func(s *scene) {
			s.options.Settle = drive.ByHoming
			s.p.failTo["$H"] = "error:5"
		}, want: drive.Refused, said: `error:5 on line 2, "$H"`, still: true},
		{name: "limit switch", breaks: func(s *scene) { s.at(midPass, s.p.trips) }, want: drive.Alarmed, said: "ALARM:1"},
		{name: "limit switch, one line one answer", kind: rig.Lockstep, breaks: func(s *scene) { s.at(midPass, s.p.trips) }, want: drive.Alarmed},
		{name: "alarm seen in a report alone", breaks: func(s *scene) { s.at(midPass, func() { s.p.alarm, s.p.dwelling = true, true }) }, want: drive.Alarmed},
		{name: "in an alarm from the start", breaks: func(s *scene) {
			s.p.alarm, s.options.Settle = true, drive.AskOperator
			s.w.script = []cue{{drive.Unsettled, time.Second, drive.Request{Kind: drive.Here}}}
		}, want: drive.Alarmed, said: "nobody is asked", still: true},
		{name: "in an alarm, though brought to the start by hand", breaks: func(s *scene) {
			s.p.alarm, s.options.Settle = true, drive.ByHand
		}, want: drive.Alarmed, said: "--unlock clears an alarm", still: true},
		{name: "reset in mid-pass", breaks: func(s *scene) { s.at(midPass, s.p.reset) }, want: drive.Restarted, said: "greeted anew"},
		{name: "reset in mid-pass, one line one answer", kind: rig.Lockstep, breaks: func(s *scene) { s.at(midPass, s.p.reset) }, want: drive.Restarted},
		{name: "reset while ready", breaks: func(s *scene) {
			s.options.Takes = 0
			s.at(4000, s.p.reset)
		}, want: drive.Restarted, still: true},
		{name: "wrong controller", breaks: func(s *scene) { s.p.greets = "Toaster 9 at your service" }, want: drive.Foreign,
			said: `it said "Toaster 9 at your service", and should greet with "Bench"`, still: true},
		{name: "other steps", breaks: func(s *scene) {
			s.p.settings = append(without(printed, "$100=80.000", "$110=24000.000"), "$100=160.000", "$110=100")
		},
			want: drive.Mismatched, said: "$100 is 160 and the rig file says 80", still: true},
		{name: "settings missing", breaks: func(s *scene) { s.p.settings = nil }, want: drive.Mismatched, said: "it does not print $120", still: true},
		{name: "three axes alone", breaks: func(s *scene) {
			s.p.settings = without(printed, "$103=10.000 (steps/deg)", "$113=10800.000", "$123=720.000")
		},
			want: drive.Mismatched, said: "X, Y and Z alone, and then no A", still: true},
		{name: "wire that takes nothing", breaks: func(s *scene) { s.at(midPass, func() { s.p.full = true }) }, want: drive.Silent, said: "taken no byte"},
		{name: "line too long", breaks: func(s *scene) { s.stretch(100) }, want: drive.Overlong, said: "controller reads 80", still: true},
		{name: "line too long, later on", breaks: func(s *scene) { s.stretch(150) }, want: drive.Overlong, said: "controller reads 80"},
		{name: "program that cannot be", breaks: func(s *scene) { s.tr.Plan().Rig.Controller.LineLength = 20 }, want: drive.Unplanned, still: true},
		{name: "slow link", breaks: func(s *scene) { s.p.baud = 4800 }, want: drive.Behind, said: "behind the plan"},
		{name: "slow host, one line one answer", kind: rig.Lockstep, breaks: func(s *scene) { s.p.baud = 9600 }, want: drive.Behind},
		{name: "host suspended", breaks: func(s *scene) {
			s.at(midPass, func() {
				s.p.slept = 40 * time.Minute
				s.p.stall = s.p.now.Add(s.p.slept)
			})
		}, want: drive.Asleep, said: "slept for 40m0s"},
		{name: "host stalls", breaks: func(s *scene) { s.at(midPass, func() { s.p.stall = s.p.now.Add(time.Second) }) }, want: drive.Behind},
		{name: "ends elsewhere", breaks: func(s *scene) { s.at(midPass, func() { s.p.pos['X'] += 3; s.p.offset['X'] += 3 }) }, want: drive.Astray,
			said: "axis rail came to rest at"},
	}
}

func twice(p *puppet) { p.says("ok"); p.says("ok") }

// lastAnswer is the number of the answer that ends a pass in which all is well.
func lastAnswer(t testing.TB) int {
	s := stage(t, loop(t, rig.Buffered))
	n := 0
	s.w.passed = func() { n = s.p.answers }
	require.NoError(t, s.run().Err())
	return n
}

// stretch makes one line of each program longer than it may be.
func (s *scene) stretch(line int) {
	make := s.options.Source
	s.options.Source = func() drive.Source { return &stretched{Source: make(), left: line} }
}

type stretched struct {
	drive.Source
	left int
}

func (s *stretched) Next() (program.Line, bool) {
	l, ok := s.Source.Next()
	if s.left--; s.left == 0 {
		l.Text += strings.Repeat(" ", 90)
	}
	return l, ok
}

func TestEveryFaultHasItsEnd(t *testing.T) {
	for _, f := range faults() {
		t.Run(f.name, func(t *testing.T) {
			s, r := takeOf(t, f.kind, f.breaks)
			require.Equal(t, f.want.String(), r.End.String(), "%s; %v", r.Detail, s.w.said)
			require.Error(t, r.Err())
			require.Contains(t, r.Err().Error(), f.said)
			require.False(t, r.Known, "after a fault position is not known")
			require.Equal(t, drive.Over, s.w.states[len(s.w.states)-1])
			l := s.read()
			require.False(t, l.Known, "and the log knows that")
			_, cut := l.LastCut()
			require.False(t, cut, "the log is complete")
			if f.still {
				require.Empty(t, s.p.moves)
				require.Empty(t, l.Takes)
				return
			}
			require.Len(t, l.Takes, 1)
			require.Equal(t, f.want.String(), l.Takes[0].End.Outcome)
			require.Equal(t, r.Detail, l.Takes[0].End.Detail)
			require.Equal(t, l.Takes[0].End.Outcome, s.w.passes[0].End.String())
		})
	}
}

// After an alarm, and after a reset, nothing that moves is sent any more.
func TestSilentAfterAnAlarm(t *testing.T) {
	for name, trouble := range map[string]func(p *puppet){"alarm": (*puppet).trips, "reset": (*puppet).reset} {
		for _, kind := range []rig.ControllerKind{rig.Buffered, rig.Lockstep} {
			at, sent := 0, 0
			s, _ := takeOf(t, kind, func(s *scene) {
				s.at(midPass, func() { trouble(s.p); at = len(s.p.moves) })
				s.p.delivered = func(text string) {
					if at > 0 && sent == 0 && strings.ContainsAny(text, "AB") { // ALARM, Bench
						sent = s.p.log.Len()
					}
				}
			})
			require.NotZero(t, sent)
			require.Len(t, s.p.moves, at, "%s: nothing moved", name)
			require.Equal(t, sent, s.p.log.Len(), "%s: nothing was sent: %q", name, s.p.log.String()[sent:])
		}
	}
}

// A fault that the rig does not notice by itself is answered with a hold, and
// a reset that empties its buffers.
func TestFaultsAreHeld(t *testing.T) {
	s, _ := takeOf(t, rig.Buffered, func(s *scene) { s.p.tamper[60] = func(p *puppet) { p.says("error:22") } })
	require.Len(t, s.p.hurried['!'], 1)
	require.Len(t, s.p.hurried[0x18], 1)
	require.Greater(t, s.p.hurried[0x18][0].Sub(s.p.hurried['!'][0]), time.Millisecond)
	require.Empty(t, s.p.blocks)
	require.False(t, s.p.alarm, "it was reset at rest")
}

// Small writes are no fault.
func TestPartialWrites(t *testing.T) {
	for _, most := range []int{1, 7} {
		s, r := takeOf(t, rig.Buffered, func(s *scene) { s.p.trickle = most })
		require.NoError(t, r.Err())
		require.InDelta(t, 3.5, s.w.passes[0].Executed, puppetSlack)
	}
}

// One line of noise is no fault, and neither is what it says besides.
func TestTalkIsNoFault(t *testing.T) {
	s, r := takeOf(t, rig.Buffered, func(s *scene) {
		s.at(midPass, func() { s.p.raw([]byte("\xff\n")); s.p.says("[MSG:Check door]"); s.p.says("echo:busy: processing") })
	})
	require.NoError(t, r.Err())
	require.Len(t, s.w.passes, 1)
}

// What a run before has left behind is waited for, or ended: rows or blocks
// that are still moving, and a hold.
func TestWhatWasLeftBehind(t *testing.T) {
	s, r := takeOf(t, rig.Buffered, func(s *scene) {
		s.p.boots = false
		s.p.queue(map[byte]float64{'X': 50}, 2000) // a second and a half
	})
	require.NoError(t, r.Err())
	require.Greater(t, s.w.passes[0].Began.Sub(opened), 1500*time.Millisecond)

	s, r = takeOf(t, rig.Buffered, func(s *scene) {
		s.p.boots = false
		s.p.queue(map[byte]float64{'X': 50}, 2000)
		s.at(100, s.p.holds)
	})
	require.NoError(t, r.Err())
	require.NotEmpty(t, s.p.hurried[0x18], "a hold is ended by a reset")
	require.NotContains(t, s.p.hurried, '~')
}

// Noise while the board boots is no fault, and neither is one that does not
// like an empty line.
func TestOddGreetings(t *testing.T) {
	_, r := takeOf(t, rig.Buffered, func(s *scene) {
		for i := range 20 {
			s.at(20+i*10, func() { s.p.raw([]byte("\xf0\x81\n")) })
		}
	})
	require.NoError(t, r.Err())
	_, r = takeOf(t, rig.Buffered, func(s *scene) {
		s.p.boots = false
		s.p.failTo[""] = "error:3"
	})
	require.NoError(t, r.Err())
}

// What was held and has moved meanwhile, by a hand or by a reset that is not told, is
// not gone on with.
func TestMovedWhileHeld(t *testing.T) {
	shifts := func(p *puppet) { p.pos['X'] += 3; p.blocks[0].from['X'] += 3; p.blocks[0].end['X'] += 3 }
	for _, ask := range []drive.RequestKind{drive.Resume, drive.Restart, drive.Quit} {
		s := stage(t, loop(t, rig.Buffered))
		s.at(midPass, func() { s.p.asked = append(s.p.asked, drive.Request{Kind: drive.Stop}) })
		s.w.script = []cue{{drive.Resting, 2 * time.Second, drive.Request{Kind: ask}}}
		s.w.entered = func(st drive.State) {
			if st == drive.Resting {
				s.p.in(time.Second, func() { shifts(s.p) })
			}
		}
		r := s.run()
		require.False(t, r.Known, ask)
		if ask == drive.Resume {
			require.Equal(t, drive.Astray, r.End)
			require.Contains(t, r.Detail, "axis rail came to rest at")
			continue
		}
		require.Contains(t, strings.Join(s.w.said, "\n"), "where the take has not brought it")
	}
}

// A gentle move that is answered and has ended elsewhere is noticed.
func TestGentleMovesAreHeldToTheirEnd(t *testing.T) {
	s := stage(t, loop(t, rig.Buffered))
	s.options.Takes = 0
	s.w.script = []cue{{drive.Ready, time.Second, drive.Request{Kind: drive.Jog, By: 20}}}
	s.w.entered = func(st drive.State) {
		if st == drive.Ready {
			s.p.in(1200*time.Millisecond, func() { s.p.pos['X'] += 3; s.p.offset['X'] += 3 })
		}
	}
	r := s.run()
	require.Equal(t, drive.Astray, r.End, r.Detail)
	require.Contains(t, r.Detail, "axis rail was sent to 60.000 mm and is reported at")
	require.False(t, r.Known)
}

// A controller that answers and reports no more is noticed within five seconds.
func TestReportsThatStop(t *testing.T) {
	s := stage(t, loop(t, rig.Buffered))
	s.options.Rounds = 20
	quiet := time.Time{}
	s.at(midPass, func() { s.p.still, quiet = true, s.p.now })
	r := s.run()
	require.Equal(t, drive.Silent, r.End, r.Detail)
	require.Contains(t, r.Detail, "it answers lines, and has not reported for")
	require.Less(t, s.p.hurried['!'][0].Sub(quiet), 5*time.Second)
}
