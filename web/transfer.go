package web

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"path"
	"slices"
	"strings"
	"time"
	"unicode"

	"github.com/go-chi/chi/v5"

	"fascia/design/bom"
	"fascia/design/panel"
	"fascia/design/plan"
	"fascia/design/record"
)

// maxUploadBytes leaves room for the envelope round a project file of full size.
const maxUploadBytes = panel.MaxFileBytes + 64<<10

// importPanel takes a project file from the form field "file". A file that is refused leaves nothing
// behind.
func (s *Server) importPanel(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, maxUploadBytes)
	text, err := uploaded(r)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	p, err := panel.Decode(text)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	id, err := s.panels.Import(r.Context(), p)
	s.showPanelOr(w, r, id, err)
}

// uploaded reads the file of an upload as it arrives, so that nothing touches the disk.
func uploaded(r *http.Request) ([]byte, error) {
	parts, err := r.MultipartReader()
	if err != nil {
		return nil, problem{Status: http.StatusUnsupportedMediaType, Text: "No file came along.",
			Fix: "Choose a project file, " + panel.FileSuffix + ", and send it from the start page."}
	}
	for {
		one, err := parts.NextPart()
		if errors.Is(err, io.EOF) {
			return nil, problem{Status: http.StatusBadRequest, Text: "No file came along.",
				Fix: "Choose a project file, " + panel.FileSuffix + "."}
		}
		if err != nil {
			return nil, badBody(err)
		}
		if one.FormName() != "file" {
			continue
		}
		text, err := io.ReadAll(io.LimitReader(one, panel.MaxFileBytes+1))
		if err != nil {
			return nil, badBody(err)
		}
		if len(text) > panel.MaxFileBytes {
			return nil, &http.MaxBytesError{Limit: panel.MaxFileBytes}
		}
		return text, nil
	}
}

// exportPanel gives the project file.
func (s *Server) exportPanel(w http.ResponseWriter, r *http.Request) {
	id, err := panelID(r)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	p, _, err := s.panels.Panel(r.Context(), id)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	text, err := panel.Encode(p)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	s.download(w, r, record.File{Name: fileName(p.Name) + panel.FileSuffix,
		Media: "application/json; charset=utf-8", Data: text})
}

// planJSON gives the whole plan to a script of ours; the header Panel-Revision says of what.
func (s *Server) planJSON(w http.ResponseWriter, r *http.Request) {
	_, rev, files, err := s.filesAt(r)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	f, err := fileNamed(files, "plan.json")
	if err != nil {
		s.fail(w, r, err)
		return
	}
	w.Header().Set("Panel-Revision", fmt.Sprint(rev))
	s.send(w, r, f)
}

// downloadOne gives one output, named as in the plan's list of files.
func (s *Server) downloadOne(w http.ResponseWriter, r *http.Request) {
	p, _, files, err := s.filesAt(r)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	f, err := fileNamed(files, strings.TrimPrefix(chi.URLParam(r, "*"), "/"))
	if err != nil {
		s.fail(w, r, err)
		return
	}
	f.Name = fileName(p.Name) + " " + path.Base(f.Name)
	s.download(w, r, f)
}

// downloadAll gives every output in one archive. The same plan gives the same archive to the byte:
// the times in it are fixed.
func (s *Server) downloadAll(w http.ResponseWriter, r *http.Request) {
	p, _, files, err := s.filesAt(r)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	data, err := archive(files)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	s.download(w, r, record.File{Name: fileName(p.Name) + ".zip", Media: "application/zip", Data: data})
}

// archiveTime stands in for the time that a file was made, which plans do not have. It is the
// earliest that the format can hold.
var archiveTime = time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)

func archive(files []record.File) ([]byte, error) {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, f := range files {
		entry, err := z.CreateHeader(&zip.FileHeader{Name: f.Name, Method: zip.Deflate, Modified: archiveTime})
		if err != nil {
			return nil, fmt.Errorf("pack %s: %w", f.Name, err)
		}
		if _, err := entry.Write(f.Data); err != nil {
			return nil, fmt.Errorf("pack %s: %w", f.Name, err)
		}
	}
	if err := z.Close(); err != nil {
		return nil, fmt.Errorf("close archive: %w", err)
	}
	return out.Bytes(), nil
}

// filesAt returns the outputs of the panel in the address, and has them kept. The parts list counts
// what the maker has in stock, which is no business of the panel's and so not of its plan.
func (s *Server) filesAt(r *http.Request) (panel.Panel, int64, []record.File, error) {
	id, err := panelID(r)
	if err != nil {
		return panel.Panel{}, 0, nil, err
	}
	p, rev, made, err := s.planOf(r.Context(), id)
	if err != nil {
		return panel.Panel{}, 0, nil, err
	}
	files, err := s.plans.files(r.Context(), id, rev, p)
	if err != nil {
		return panel.Panel{}, 0, nil, err
	}
	stock, err := s.parts.Stock(r.Context())
	if err != nil {
		return panel.Panel{}, 0, nil, err
	}
	files, err = withStock(files, made, stock)
	s.outputs.follow(id)
	return p, rev, files, err
}

// withStock returns the files with the parts list set against a stock.
func withStock(files []record.File, made *plan.Plan, stock map[string]int) ([]record.File, error) {
	data, err := plan.BOMFile(bom.WithStock(made.BOM, stock))
	if err != nil {
		return nil, fmt.Errorf("write parts list: %w", err)
	}
	files = slices.Clone(files) // the plan's own are shared
	for i := range files {
		if files[i].Name == "bom.csv" {
			files[i].Data = data
		}
	}
	return files, nil
}

func fileNamed(files []record.File, name string) (record.File, error) {
	for _, f := range files {
		if f.Name == name {
			return f, nil
		}
	}
	return record.File{}, record.ErrNotFound
}

// download sends f to be saved, never to be shown: opened in the browser it would be a page of ours.
func (s *Server) download(w http.ResponseWriter, r *http.Request, f record.File) {
	h := w.Header()
	h.Set("Content-Security-Policy", downloadPolicy)
	h.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": f.Name}))
	s.send(w, r, f)
}

func (s *Server) send(w http.ResponseWriter, r *http.Request, f record.File) {
	w.Header().Set("Content-Type", f.Media)
	w.Header().Set("Content-Length", fmt.Sprint(len(f.Data)))
	if r.Method == http.MethodHead {
		return
	}
	if _, err := w.Write(f.Data); err != nil {
		s.log.DebugContext(r.Context(), "download not read", "file", f.Name, "error", err)
	}
}

// fileName turns a panel's name into one that every system takes: letters and digits of any script,
// other characters as dashes, no more than 60 characters, and none of the names that some systems keep
// for devices.
func fileName(name string) string {
	var out strings.Builder
	count, gap := 0, false
	for _, c := range name {
		if count >= 60 {
			break
		}
		if !unicode.IsLetter(c) && !unicode.IsDigit(c) && !unicode.IsMark(c) {
			gap = count > 0
			continue
		}
		if gap {
			out.WriteByte('-')
			count++
		}
		out.WriteRune(c)
		count++
		gap = false
	}
	text := out.String()
	if text == "" || reserved[strings.ToLower(text)] {
		return strings.TrimPrefix(text+"-panel", "-")
	}
	return text
}

// reserved names cannot be given to files on some systems, whatever their ending.
var reserved = map[string]bool{"con": true, "prn": true, "aux": true, "nul": true,
	"com1": true, "com2": true, "com3": true, "com4": true, "com5": true, "com6": true, "com7": true, "com8": true, "com9": true,
	"lpt1": true, "lpt2": true, "lpt3": true, "lpt4": true, "lpt5": true, "lpt6": true, "lpt7": true, "lpt8": true, "lpt9": true}
