package format

import (
	"fmt"
	"io"

	"seamrail/export/handoff/gltf"
)

var gltfScene = []Format{{
	Export: Export{Place: 9, Name: "gltf", Help: "camera and turntable as an animation, in binary glTF 2.0"},
	File:   "motion.glb", Purpose: "camera and turntable as glTF, to add smoke or sparks to",
	Takes: true,
	Needs: func(of *Of) error {
		if _, _, err := of.Lens(); err != nil {
			return err
		}
		if n := of.Plan.Loop.Captured; n > gltf.MaxFrames {
			return fmt.Errorf("a loop of %d captured frames is too long for glTF, which holds %d", n, gltf.MaxFrames)
		}
		return nil
	},
	Write: func(of *Of, w io.Writer) error {
		_, scene, err := of.Lens()
		if err != nil {
			return err
		}
		return gltf.Write(w, of.Trajectory, of.head(), scene)
	},
}}
