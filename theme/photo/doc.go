// Package photo makes the pictures of a site from a keeper's photo: turned upright, in up to three sizes, without any
// metadata.
//
// It reads JPEG, PNG and WebP, told apart by their first bytes and not by their name. The long edge of the
// sizes is 480, 736 and 1600 pixels; a photo is never made larger. Photos that let light through stay PNG, all
// others become JPEG. Of the metadata only the colour profile is kept: no place, no time, no camera, no name of
// a person.
//
// What it does not do: animated pictures (the first frame is shown, where the format allows it), CMYK profiles, and
// colours of more than eight bits.
package photo
