// Package gltf writes the camera and the turntable of a move as an animation in
// glTF 2.0 (Khronos, glTF 2.0 specification, ISO/IEC 12113), in its binary form,
// so that smoke, drops or sparks can be added that match the picture.
//
// The scene is in metres, +Y up; the turntable's top is at the origin, and at
// frame 0 +X is to the right and -Z the way the camera looks when its pan is 0.
// Times are seconds on screen from frame 0, one key a captured frame; the last
// key is frame 0 of the next round, so that the animation lasts as long as the
// loop. Where something turns far within a frame there are keys between.
package gltf

import (
	"bytes"
	"fmt"
	"io"

	"seamrail/motion/scene"

	"github.com/qmuntal/gltf"

	"seamrail/export/header"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/matchmove"
	"seamrail/motion/plan/trajectory"
)

// MaxFrames is how many captured frames a loop may have. Times are floats of 24
// bits, which round by at most one part in 2^24: at this many frames by a
// hundredth of a frame, which no particle shows.
const MaxFrames = 1 << 24 / 100

// turn is by how many degrees something may turn between two keys. Quaternions
// are joined the short way, which is the right way below 180 (glTF 2.0, appendix
// C); a third of that keeps clear of doubt.
const turn = 60.0

// near is how near the lens things are drawn, in m; nothing is filmed nearer.
const near = 0.001

// Write writes the animation. The error is the writer's, wrapped, one that says
// what is missing of the scene or that the loop has more than MaxFrames, or a
// fault.List where the scene contradicts itself.
func Write(w io.Writer, t *trajectory.Trajectory, head header.Head, scene scene.Scene) error {
	if t.Captured() > MaxFrames {
		return fmt.Errorf("a loop of %d captured frames is too long for glTF, whose times are floats of 24 bits: at most %d", t.Captured(), MaxFrames)
	}
	shot, err := matchmove.New(lensview.Motion(t), scene)
	if err != nil {
		return err
	}
	keys, err := shot.Keys(turn)
	if err != nil {
		return err
	}
	// The encoder keeps some errors of its writer to itself; a buffer has none.
	var buf bytes.Buffer
	err = gltf.NewEncoder(&buf).Encode(build(t, head, shot, keys, scene.Product))
	if err == nil {
		_, err = w.Write(buf.Bytes())
	}
	if err != nil {
		return fmt.Errorf("writing the glTF animation: %w", err)
	}
	return nil
}

func build(t *trajectory.Trajectory, head header.Head, shot matchmove.Shot, keys []matchmove.Key, p scene.Product) *gltf.Document {
	d := document{gltf.NewDocument()}
	d.Asset.Generator = "seamrail"
	title := head.Title
	d.Scenes[0].Name = title
	d.Extras = extras(t, head, shot, keys)
	camera, table := d.addCamera(shot, keys[0]), d.addTable(p, keys[0])
	d.animate(title, camera, table, keys, t.Clock())
	return d.Document
}

// extras says what glTF has no place for.
func extras(t *trajectory.Trajectory, head header.Head, shot matchmove.Shot, keys []matchmove.Key) map[string]any {
	c := t.Clock()
	out := map[string]any{
		"shot": head.Title, "plan": head.Plan, "checks": head.Passed,
		"fails": head.Fails, "unknown": head.Unknown,
		"capture": c.Capture.String(), "playback": c.Playback.String(), "retime": c.Retime.String(),
		"frames": t.Captured(),
	}
	if shot.Breathes(keys) {
		out["caution"] = "the angle of view changes as focus is pulled, and glTF holds that of frame 0"
	}
	return out
}
