package cli

import (
	"errors"
	"fmt"
	"io"

	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/export/gltf"
	"seamrail/export/motionjson"
	"seamrail/export/otio"
	"seamrail/export/selects"
	"seamrail/motion/kept"
	"seamrail/motion/match"
	"seamrail/motion/picture"
	"seamrail/motion/sight"
)

// handoffs are the exports for those who go on with the picture.
var handoffs = []string{selectsExport, otioExport, gltfExport, motionExport}

const (
	selectsExport = "selects"
	otioExport    = "otio"
	gltfExport    = "gltf"
	motionExport  = "motion"
)

// kept reads the takes to keep from the log of the shot.
func (f *ShotFlags) kept(j job) (kept.Takes, error) {
	log, err := pickLog(logName(f.Shot), isKept)
	if err != nil {
		return kept.Takes{}, err
	}
	takes := kept.Of(j.plan, filmed(log, f.Shot != "", j.plan.Hash()))
	takes.Unread = log.Torn
	return takes, nil
}

// filmed are the takes of a log that are to be kept. Where no shot file is named
// one log is that of many shots, and only this plan's takes are its own.
func filmed(log takelog.Log, named bool, hash string) []kept.Filmed {
	var out []kept.Filmed
	for _, t := range log.Takes {
		if isKept(t) && (named || t.Begin.Plan == hash) {
			out = append(out, filmedOf(t))
		}
	}
	return out
}

func filmedOf(t takelog.Take) kept.Filmed {
	f := kept.Filmed{
		Number: t.Number, Plan: t.Begin.Plan, Rounds: t.End.Rounds, Held: t.End.Held, Cut: t.Cut, Notes: t.Notes,
	}
	if !t.Cut && t.End.Outcome != drive.Finished.String() {
		f.Ended = t.End.Outcome
	}
	return f
}

// warnLeftOut tells of takes that are kept and yet not handed on.
func warnLeftOut(w io.Writer, takes kept.Takes) {
	for _, l := range takes.LeftOut {
		complain(w, fmt.Errorf("take %d is kept, but left out: %s", l.Take, l.Why))
	}
	if takes.Unread > 0 {
		complain(w, fmt.Errorf("%s of the log cannot be read; which takes are kept may have been said there: see \"seamrail takes\"", counted(takes.Unread, "line")))
	}
}

// lens is how the lens of the shot looks at it. It is an error that says what is
// missing where that is not known.
func (j job) lens() (*match.Shot, picture.Scene, error) {
	scene, ok := sight.Scene(j.shot, j.rig)
	if !ok {
		return nil, scene, errNoScene
	}
	s, err := match.New(sight.Motion(j.trajectory), scene)
	if err != nil {
		return nil, scene, sight.Located(err, j.shot)
	}
	return &s, scene, nil
}

var errNoScene = errors.New("the shot says nothing of camera and scene; [camera] and [scene] in its file would")

// handoff writes one of the exports for those who go on with the picture. Takes
// of no plan are the one that the job's plan foresees.
func (j job) handoff(w io.Writer, what string, takes kept.Takes) error {
	if takes.Plan == nil {
		takes = kept.Of(j.plan, nil)
	}
	switch what {
	case selectsExport:
		return selects.Write(w, j.trajectory, j.told(), takes)
	case otioExport:
		return otio.Write(w, j.told(), takes)
	case gltfExport:
		_, scene, err := j.lens()
		if err != nil {
			return err
		}
		return gltf.Write(w, j.trajectory, j.told(), scene)
	}
	lens, _, err := j.lens()
	if err != nil {
		lens = nil // the axes are known all the same
	}
	return motionjson.Write(w, j.trajectory, j.told(), lens, takes)
}

// handoffParts are the files of the folder for those who go on with the picture.
func (j job) handoffParts(set exportSettings) contents {
	always := with(
		part{"selects.csv", "the edit: which frames of each kept take to use", j.exporter(selectsExport, set)},
		part{"selects.otio", "the same as a timeline, for an edit program", j.exporter(otioExport, set)},
		part{"motion.json", "every axis and the lens at each frame, for other programs", j.exporter(motionExport, set)},
	)
	_, _, err := j.lens()
	if n := j.plan.Loop.Captured; err == nil && n > gltf.MaxFrames {
		err = fmt.Errorf("a loop of %d captured frames is too long for glTF, which holds %d", n, gltf.MaxFrames)
	}
	if err != nil {
		return together(always, without(err, "motion.glb"))
	}
	return together(always, with(part{"motion.glb", "camera and turntable as glTF, to add smoke or sparks to", j.exporter(gltfExport, set)}))
}
