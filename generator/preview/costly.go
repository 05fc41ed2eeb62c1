package preview

// What takes the whole pack to make, and is therefore made once for each state of it, whoever asks and how often: any
// tablet in the network may ask.

import (
	"context"

	"trundle/generator"
)

// costly are files of one state.
type costly struct {
	version int
	files   map[string][]byte
}

// of forgets what is of another state.
func (c *costly) of(s state) {
	if c.files == nil || c.version != s.version {
		*c = costly{version: s.version, files: map[string][]byte{}}
	}
}

// whole gives a file that is made from all others. Those who ask meanwhile wait for the one drawing.
func (p *Preview) whole(s state, name string) ([]byte, bool, error) {
	p.drawing.Lock()
	defer p.drawing.Unlock()
	p.costly.of(s)
	if data, ok := p.costly.files[name]; ok {
		return data, data != nil, nil
	}
	all, err := generator.Draw(context.Background(), s.good)
	if err != nil {
		return nil, false, err
	}
	p.costly.files[name] = nil // so that a file that is not there is looked for once
	for other, data := range all {
		if generator.TakesAll(other) {
			p.costly.files[other] = data
		}
	}
	data := p.costly.files[name]
	return data, data != nil, nil
}

// season gives such a file.
func (p *Preview) season(s state, job generator.Job) ([]byte, bool, error) {
	p.drawing.Lock()
	defer p.drawing.Unlock()
	p.costly.of(s)
	if data, ok := p.costly.files[job.Name]; ok {
		return data, true, nil
	}
	data, err := job.Make()
	if err == nil {
		p.costly.files[job.Name] = data
	}
	return data, true, err
}
