package storage

import (
	"encoding/json"
	"errors"
	"fmt"
	"image"

	"haunchbook.example/app/job"
	"haunchbook.example/app/picture"
	"haunchbook.example/geometry"
)

// Settings are of the whole book: who makes the sheets, and what a new job
// starts with.
type Settings struct {
	Company Company
	// Start is the job that new jobs start as: units, rules, mix, crew, weathering
	// region, pricing.
	Start job.Job
	Frost geometry.Length // depth that edges are to reach; 0 if it does not matter
	Paper string          // of sheets; "" to choose by the units
	// Stored tells whether they were ever stored; else they are the usual ones.
	Stored bool
}

// Company heads the sheets.
type Company struct {
	Name  string   `json:"name,omitzero"`
	Lines []string `json:"lines,omitzero"` // address, telephone, license
	Logo  []byte   `json:"logo,omitzero"`  // an image file; nil for none
}

// Picture gives the logo; nil for none.
func (c Company) Picture() (image.Image, error) {
	if len(c.Logo) == 0 {
		return nil, nil
	}
	return picture.Read(c.Logo)
}

// settingsFile is how settings are stored: the job as its file.
type settingsFile struct {
	Company Company         `json:"company"`
	Start   json.RawMessage `json:"start"`
	Frost   string          `json:"frost"`
	Paper   string          `json:"paper,omitzero"`
}

// MarshalJSON gives the settings with their job as a job file.
func (s Settings) MarshalJSON() ([]byte, error) {
	return json.Marshal(settingsFile{s.Company, s.Start.Encode(), s.Frost.Exact(s.Start.Units), s.Paper})
}

// UnmarshalJSON reads what MarshalJSON gives.
func (s *Settings) UnmarshalJSON(data []byte) error {
	var f settingsFile
	if err := json.Unmarshal(data, &f); err != nil {
		return err
	}
	start, err := readJob(f.Start)
	if err != nil {
		return fmt.Errorf("start: %w", err)
	}
	frost, err := geometry.ParseWritten(f.Frost)
	if err != nil {
		return fmt.Errorf("frost: %w", err)
	}
	*s = Settings{f.Company, start, frost, f.Paper, true}
	return nil
}

// Settings gives the settings of the book; usual ones if none were stored.
func (b *Book) Settings() (Settings, error) {
	var s Settings
	err := b.view(func(t *tx) error { return t.getJSON(inSettings, key{}, &s) })
	if IsKind(err, Missing) {
		return Settings{Start: job.New()}, nil
	}
	return s, err
}

// Check tells why settings cannot be stored.
func (s Settings) Check() error {
	if s.Frost < 0 {
		return errInvalid("frost depth", s.Frost.Text(s.Start.Units), "write 0 or more")
	}
	if len(s.Company.Logo) > 0 {
		if _, _, err := picture.Check(s.Company.Logo); err != nil {
			return &Fault{Kind: Invalid, Text: "logo: " + err.Error(), Err: err}
		}
	}
	return nil
}

// SetSettings stores the settings.
func (b *Book) SetSettings(s Settings) error {
	if err := s.Check(); err != nil {
		return err
	}
	return b.update(func(t *tx) error { return t.putJSON(inSettings, key{}, s) })
}

func errInvalid(what, found, want string) error {
	return &Fault{Kind: Invalid, Text: what + ": found " + found, Way: want, Err: errors.New("invalid " + what)}
}
