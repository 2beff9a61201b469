package page

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"mime"
	"net/http"
	"path"
	"path/filepath"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
)

// export answers with a file.
func (s *desk) export(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Text string `json:"text"`
		Form string `json:"form"`
	}
	if !ask(w, r, &q) {
		return
	}
	f, data, err := s.written(r.Context(), q.Text, q.Form)
	if err != nil {
		fail(w, err)
		return
	}
	w.Header().Set("Content-Type", kindOf(f.File))
	w.Header().Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": f.File}))
	_, _ = w.Write(data)
}

// written is the plan of a text in a form, whole or not at all: one that the export
// command knows, or the name of a file that make writes.
func (s *desk) written(ctx context.Context, text, form string) (f format.Format, data []byte, err error) {
	p, err := s.foretold(ctx, text)
	if err != nil {
		return f, nil, err
	}
	of, err := s.toWrite(p)
	if err != nil {
		return f, nil, err
	}
	f, err = format.Named(form)
	refused := f.Refused
	if err != nil {
		if f, err = format.InFile(form); err != nil {
			return f, nil, err
		}
		refused = func(p *job.Job, force bool) error { return job.Refuse(p.Unable(), force) } // as the folder is
	}
	if err := f.Missing(of); err != nil {
		return f, nil, err
	}
	if err := refused(p, false); err != nil {
		return f, nil, err
	}
	var b bytes.Buffer
	err = f.Write(of, until{ctx, &b})
	return f, b.Bytes(), err
}

// of is a plan to be written as the make command would, with the takes to keep.
func (s *desk) toWrite(p *job.Job) (*format.Of, error) {
	opt := format.Usual()
	var err error
	opt.Takes, err = logbook.Kept(s.shot, p.Plan)
	return format.New(p, opt), err
}

// kindOf is the media type of a file that is downloaded. None is shown in the
// page, and so none has to be one that a browser acts on.
func kindOf(name string) string {
	switch path.Ext(name) {
	case ".csv", ".txt", ".ngc", ".vtt":
		return "text/plain; charset=utf-8"
	case ".json", ".otio":
		return "application/json"
	}
	return "application/octet-stream"
}

type makeQuestion struct {
	Text   string `json:"text"`
	Folder string `json:"folder"`
}

type madeAnswer struct {
	Folder string `json:"folder"`
	Text   string `json:"text"`
}

// make writes everything into a folder beside the shot, and says what is in it.
func (s *desk) make(ctx context.Context, q makeQuestion) (*madeAnswer, error) {
	p, err := s.foretold(ctx, q.Text)
	if err != nil {
		return nil, err
	}
	dir, err := s.doc.below(q.Folder)
	if err != nil {
		return nil, err
	}
	if err := job.Refuse(p.Unable(), false); err != nil {
		return nil, err
	}
	of, err := s.toWrite(p)
	if err != nil {
		return nil, err
	}
	all := of.Contents()
	if err := atomicfile.Folder(dir, filesUntil(ctx, all.Files()), nil); err != nil {
		return nil, err
	}
	var said bytes.Buffer
	err = errors.Join(all.List(&said), all.Stale(&said, dir))
	return &madeAnswer{q.Folder, said.String()}, err
}

// below makes a folder in the folder of the shot, if need be, and returns where
// it is. One that is a link to elsewhere is refused by the system.
func (f folder) below(name string) (string, error) {
	local, err := inside(name)
	if err != nil {
		return "", err
	}
	if local == "." {
		return "", fmt.Errorf("name a folder beside the shot, such as \"loop\"")
	}
	if why := unfit(local); why != "" {
		return "", fmt.Errorf("%w; name a folder beside the shot, such as \"loop\"", errors.New(why))
	}
	if err := f.root.MkdirAll(local, 0o777); err != nil {
		return "", unable("write", name, err)
	}
	sub, err := f.root.OpenRoot(local) // through no link that leads out
	if err != nil {
		return "", unable("write", name, err)
	}
	return filepath.Join(f.root.Name(), local), sub.Close()
}
