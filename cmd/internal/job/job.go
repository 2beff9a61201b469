// Package job is a shot on its rig as the commands and the page have it: read, planned,
// checked and judged, with what its controller is expected to make of it.
package job

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"sync"

	"seamrail/motion/base/list"

	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/exit"
	"seamrail/motion/base/plain"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/matchmove"
	"seamrail/motion/camera/picture"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/controller/program"
	"seamrail/motion/cue"
	"seamrail/motion/cue/syncmark"
	"seamrail/motion/drivetrain/torque"
	"seamrail/motion/plan"
	"seamrail/motion/plan/judge"
	"seamrail/motion/plan/reach"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/scene"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

// Job is a shot that has been read, planned, checked and judged. Nothing of it changes
// afterwards, and it may be asked by several at once.
type Job struct {
	Shot       shot.Shot
	Rig        rig.Rig
	Plan       *plan.Plan
	Trajectory *trajectory.Trajectory
	Picture    *picture.Report // nil in a shot without a camera and a scene
	Cues       cue.Sheet
	Mark       *syncmark.Mark // how the rig tells the camera when it is; nil in a shot that does not say
	judge.Judged

	fitting *fitting
	loops   *followed
	limits  func() []reach.Fit
}

// Plan plans a shot on its rig, checks it and judges it. With ahead, what the
// controller makes of it is begun to be worked out meanwhile.
func Plan(s shot.Shot, r rig.Rig, ahead bool) (*Job, error) {
	return looked(context.Background(), s, r, lensview.ExamineUntil, ahead)
}

// looked is Plan with a way to look at the picture, until ctx ends.
func looked(ctx context.Context, s shot.Shot, r rig.Rig, look looking, ahead bool) (*Job, error) {
	var found verify.Verdict
	j, err := unjudged(ctx, s, r, func(ctx context.Context, t *trajectory.Trajectory, s shot.Shot) (seen *picture.Report, err error) {
		found, seen, err = besideVerified(ctx, t, s, look)
		return seen, err
	}, ahead)
	if err != nil {
		return nil, err
	}
	j.Judged = judge.Checked(ctx, found, j.Shot, j.Plan, j.Picture, j.Cues)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	return j, nil
}

func unjudged(ctx context.Context, s shot.Shot, r rig.Rig, look looking, ahead bool) (*Job, error) {
	s, p, err := moved(s, r)
	if err != nil {
		return nil, err
	}
	hands, unheard := cue.New(p, s)
	t, fit := trajectory.New(p), &fitting{}
	if ahead && unheard == nil && p.ByFrame == nil && len(p.Breaches()) == 0 {
		deadman.Go(func() { _, _ = fit.get(context.Background(), t) }) // which keeps the error too
	}
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	seen, err := look(ctx, t, s)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if pulled := lensview.Turns(t, seen); len(pulled) > 0 && unheard == nil {
		s = s.WithTurns(pulled, p.Round())
		hands, unheard = cue.New(p, s)
	}
	mark, unmarked := syncmark.New(p, t, s)
	if err := atOnce(unheard, err, unmarked); err != nil {
		return nil, err
	}
	hands.Sync = syncOf(mark)
	return &Job{
		Shot: s, Rig: r, Plan: p, Trajectory: t, Picture: seen, Cues: hands, Mark: mark, fitting: fit, loops: &followed{},
		limits: sync.OnceValue(func() []reach.Fit { return limitFits(s, r) }),
	}, nil
}

// besideVerified looks at the picture of a plan while the verifier looks at the plan. When
// ctx ends, or there is no picture, what the verifier has found is of no use; it has ended too.
func besideVerified(ctx context.Context, t *trajectory.Trajectory, s shot.Shot, look looking) (verify.Verdict, *picture.Report, error) {
	ctx, end := context.WithCancel(ctx)
	defer end()
	found := make(chan verify.Verdict, 1)
	deadman.Go(func() {
		v, _ := verify.CheckUntil(ctx, t)
		found <- v
	})
	seen, err := look(ctx, t, s)
	if err != nil {
		end()
	}
	return <-found, seen, err
}

// syncOf is a mark as those hear it who are counted to.
func syncOf(m *syncmark.Mark) *cue.Sync {
	if m == nil {
		return nil
	}
	return &cue.Sync{Name: m.Name(), At: m.At(), After: m.After}
}

// WithCues is the job with another sheet of cues: its own, by what is known of the hands.
func (j *Job) WithCues(s cue.Sheet) *Job {
	out := *j
	out.Cues = s
	return &out
}

// Trouble is an error of limits when the plan must not run as it is, else nil.
func (j *Job) Trouble() error {
	type limit struct{ axis, quantity string }
	broken := map[limit]bool{}
	for _, b := range j.Plan.Breaches() {
		broken[limit{b.Axis, b.Quantity}] = true
	}
	if n := len(broken); n > 0 {
		return exit.Limited("the plan breaks %s of the rig", plain.Count(n, "limit"))
	}
	if n := len(j.Verdict.Failed()); n > 0 {
		return exit.Limited("the plan fails %s", plain.Count(n, "check"))
	}
	return nil
}

// Headline is what is said first of the job, wherever anything is. It waits for what
// the controller makes of it.
func (j *Job) Headline() judge.Headline { return j.Judged.Headline(j.Expected()) }

// Refuse is err, some trouble of a plan, unless forced, with what to do about it.
func Refuse(err error, force bool) error {
	if err == nil || force {
		return nil
	}
	return exit.Limited("%w, and nothing was written\n"+
		"see \"seamrail plan\" for what would fit; --force writes it all the same, and the file will say so", err)
}

// CountIn is how many seconds are counted before a take unless told: time to take the
// hand away from the keys.
const CountIn = 3

// MaxCountIn is longer than anyone waits, in s.
const MaxCountIn = 600

// fitting is the take cut for the rig's controller, worked out when it is
// first asked for.
type fitting struct {
	mu     sync.Mutex
	done   bool
	chosen ontime.Chosen
	err    error
}

// get works it out, or waits for who does. What was given up is worked out anew by the
// next who asks.
func (f *fitting) get(ctx context.Context, t *trajectory.Trajectory) (ontime.Chosen, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.done {
		return f.chosen, f.err
	}
	if err := Driven(t.Rig()); err != nil {
		return ontime.Chosen{}, err
	}
	c, err := ontime.ChooseUntil(ctx, t, t.Rounds(), program.Opening{})
	if ctx.Err() == nil {
		f.done, f.chosen, f.err = true, c, err
	}
	return c, err
}

// Blocks returns the take cut for the rig's controller, with what is expected
// of it.
func (j *Job) Blocks() (ontime.Chosen, error) {
	return j.fitting.get(context.Background(), j.Trajectory)
}

// BlocksOpened is Blocks for a program that opens in its own way, or as it is
// driven if no blocks suit that.
func (j *Job) BlocksOpened(o program.Opening) (ontime.Chosen, error) {
	driven, err := j.Blocks()
	if err != nil || !driven.Expected.Follows() {
		return driven, err
	}
	c, err := ontime.ChooseOpened(j.Trajectory, int64(j.Plan.Rounds), o)
	if err != nil || !c.Expected.Follows() {
		return driven, err
	}
	return c, nil
}

// Expected is what the controller is expected to make of the take; nil for a
// plan that must not run anyway, or that cannot be cut, where nothing is sent to it, and of
// one that rests at each frame, on nobody's clock.
func (j *Job) Expected() *ontime.Prediction {
	if j.Schedule != nil || j.Trouble() != nil {
		return nil
	}
	c, err := j.Blocks()
	if err != nil {
		return nil
	}
	return &c.Expected
}

// Foretell works out what Expected and Unable tell, until ctx ends, whose error it then
// returns: whoever may give up asks so first.
func (j *Job) Foretell(ctx context.Context) error {
	if j.Schedule == nil && j.Trouble() == nil {
		_, _ = j.fitting.get(ctx, j.Trajectory) // what keeps it from being cut, Expected knows
	}
	return ctx.Err()
}

// Unable is Trouble, or an error of limits where a motor has not the torque or the
// controller cannot follow the move.
func (j *Job) Unable() error {
	if err := j.Beyond(); err != nil {
		return err
	}
	if x := j.Expected(); x != nil && !x.Follows() {
		return exit.Limited("the controller cannot follow the move")
	}
	return nil
}

// Beyond is Unable but for the controller, which takes longer to tell.
func (j *Job) Beyond() error {
	if err := j.Trouble(); err != nil {
		return err
	}
	if n := j.shortMotors(); n > 0 {
		return exit.Limited("the move asks %s for more torque than it has", plain.Count(n, "motor"))
	}
	return nil
}

// shortMotors counts the motors that have not the torque.
func (j *Job) shortMotors() int {
	return list.Count(torque.Examine(j.Plan), func(a torque.Axis) bool { return a.Level == torque.Short })
}

// Driven is an error where nothing is sent to the rig, which says what to do instead.
func Driven(r rig.Rig) error {
	if r.Controller.Kind.Driven() {
		return nil
	}
	return fmt.Errorf("%s is a %s rig: two ends and a time are set on it and it is started by hand, so that nothing is sent to it; "+
		"\"seamrail sheet\" says what to set and when to press", strconv.Quote(r.Name), r.Controller.Kind)
}

// Choosable is an error where laws and paces of the rig are nobody's to choose, which says
// where the loops are that it offers.
func Choosable(r rig.Rig) error {
	if r.Controller.Kind.Driven() {
		return nil
	}
	return fmt.Errorf("%s goes by a ramp of its own, at the times that its buttons offer: no law or pace can be chosen for it; "+
		"\"seamrail plan --show by-hand\" lists the loops that it offers", strconv.Quote(r.Name))
}

// ErrNoScene is said of a shot that has no picture to look at.
var ErrNoScene = errors.New("the shot says nothing of camera and scene; [camera] and [scene] in its file would")

// Pictured is an error that says what is missing where the shot has no picture
// that could be told frame by frame.
func (j *Job) Pictured() error {
	if j.Picture == nil {
		return ErrNoScene
	}
	if len(j.Picture.Rows) > 0 {
		return nil
	}
	v, _ := j.Picture.Find("magnification")
	return errors.New("how large things come out is not known; [camera] in the shot needs " + strings.Join(v.Missing, ", "))
}

// Lens is how the lens of the shot looks at it. It is an error that says what is
// missing where that is not known.
func (j *Job) Lens() (*matchmove.Shot, scene.Scene, error) {
	scene, ok := lensview.Scene(j.Shot, j.Rig)
	if !ok {
		return nil, scene, ErrNoScene
	}
	s, err := matchmove.New(lensview.Motion(j.Trajectory), scene)
	if err != nil {
		return nil, scene, lensview.Located(err, j.Shot)
	}
	return &s, scene, nil
}
