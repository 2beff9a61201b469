package format

import (
	"fmt"
	"io"

	"seamrail/export/handoff/gltf"
	"seamrail/export/handoff/motionjson"
	"seamrail/export/handoff/otio"
	"seamrail/export/table/selectlist"
	"seamrail/motion/edit/selects"
)

var otioTimeline = []Format{{
	Export: Export{Place: 8, Name: "otio", Help: "the same as a timeline, in OpenTimelineIO JSON"},
	File:   "selects.otio", Purpose: "the same as a timeline, for an edit program", For: Edit,
	Takes: true,
	Write: func(of *Of, w io.Writer) error { return otio.Write(w, of.head(), handedOn(of)) },
}}

var selectsTable = []Format{{
	Export: Export{Place: 7, Name: "selects", Help: "CSV, one row a kept take: which frames of it to use, and the retime"},
	File:   "selects.csv", Purpose: "the edit: which frames of each kept take to use", For: Edit,
	Takes: true,
	Write: func(of *Of, w io.Writer) error { return selectlist.Write(w, of.head(), handedOn(of)) },
}}

// handedOn are the takes to keep; without any, the one that the plan foresees.
func handedOn(of *Of) selects.Takes {
	if of.Takes.Plan == nil {
		return selects.Of(of.Plan, nil).Synced(of.Mark)
	}
	return of.Takes.Synced(of.Mark)
}

var motionJSON = []Format{{
	Export: Export{Place: 10, Name: "motion", Help: "JSON, every axis and the lens at each captured frame"},
	File:   "motion.json", Purpose: "every axis and the lens at each frame, for other programs", For: Edit,
	Takes: true,
	Write: func(of *Of, w io.Writer) error {
		lens, _, err := of.Lens()
		if err != nil {
			lens = nil // the axes are known all the same
		}
		return motionjson.Write(w, of.Trajectory, of.head(), lens, handedOn(of))
	},
}}

var gltfScene = []Format{{
	Export: Export{Place: 9, Name: "gltf", Help: "camera and turntable as an animation, in binary glTF 2.0"},
	File:   "motion.glb", Purpose: "camera and turntable as glTF, to add smoke or sparks to", For: Edit,
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
