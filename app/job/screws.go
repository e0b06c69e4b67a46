package job

import "gapwright/geometry"

func (r Record) turnsReady() (bool, error) { return false, geometry.ErrNoReading }

func (r Record) turnsLowered(course int) (geometry.Interval, bool) { return geometry.Interval{}, false }
