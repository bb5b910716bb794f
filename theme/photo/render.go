package photo

import (
	"bytes"
	"image"
	"image/jpeg"
	"image/png"

	"golang.org/x/image/draw"
)

// render returns the sizes of a decoded photo.
func render(full image.Image, n notes) ([]Size, error) {
	format := JPEG
	if o, ok := full.(interface{ Opaque() bool }); ok && !o.Opaque() {
		format = PNG
	}

	largest := longEdges[len(longEdges)-1]
	picture := turn(resize(shrink(full, largest), largest), n.orientation)
	var sizes []Size
	for i := len(longEdges) - 1; i >= 0; i-- {
		picture = resize(picture, longEdges[i])
		bounds := picture.Bounds()
		if len(sizes) > 0 && sizes[len(sizes)-1].Width == bounds.Dx() && sizes[len(sizes)-1].Height == bounds.Dy() {
			continue
		}
		data, err := encode(picture, format, n.profile)
		if err != nil {
			return nil, err
		}
		sizes = append(sizes, Size{Width: bounds.Dx(), Height: bounds.Dy(), Format: format, Data: data})
	}
	for i, j := 0, len(sizes)-1; i < j; i, j = i+1, j-1 {
		sizes[i], sizes[j] = sizes[j], sizes[i]
	}
	return sizes, nil
}

// resize returns the picture with the given long edge, or as it is where that is not smaller.
func resize(picture image.Image, edge int) *image.RGBA {
	from := picture.Bounds()
	width, height := from.Dx(), from.Dy()
	if long := max(width, height); long > edge {
		width, height = max(1, (width*edge+long/2)/long), max(1, (height*edge+long/2)/long)
	} else if done, ok := picture.(*image.RGBA); ok {
		return done
	}
	to := image.NewRGBA(image.Rect(0, 0, width, height))
	if width == from.Dx() && height == from.Dy() {
		draw.Draw(to, to.Bounds(), picture, from.Min, draw.Src)
		return to
	}
	draw.CatmullRom.Scale(to, to.Bounds(), picture, from, draw.Src, nil)
	return to
}

// shrink makes a large picture smaller by whole factors, which is fast and keeps the last, finer step short. The
// result is still at least as large as edge.
func shrink(picture image.Image, edge int) image.Image {
	planes, ok := picture.(*image.YCbCr)
	if !ok {
		return average(picture, max(picture.Bounds().Dx(), picture.Bounds().Dy())/edge)
	}
	for max(planes.Rect.Dx(), planes.Rect.Dy()) >= 2*edge {
		planes = halve(planes)
	}
	return planes
}

// halve returns a picture of half the width and height, rounded up.
func halve(p *image.YCbCr) *image.YCbCr {
	half := image.NewYCbCr(image.Rect(0, 0, (p.Rect.Dx()+1)/2, (p.Rect.Dy()+1)/2), p.SubsampleRatio)
	halvePlane(plane{half.Y, half.YStride}, plane{p.Y, p.YStride}, p.Rect.Dx(), p.Rect.Dy())
	width, height := chromaSize(p)
	halvePlane(plane{half.Cb, half.CStride}, plane{p.Cb, p.CStride}, width, height)
	halvePlane(plane{half.Cr, half.CStride}, plane{p.Cr, p.CStride}, width, height)
	return half
}

// chromaSize returns the size of the colour planes of a picture whose corner is at 0, 0.
func chromaSize(p *image.YCbCr) (width, height int) {
	last := p.COffset(p.Rect.Max.X-1, p.Rect.Max.Y-1)
	return last%p.CStride + 1, last/p.CStride + 1
}

// plane is one channel of a picture: its values, and how many stand between one row and the next.
type plane struct {
	pix    []byte
	stride int
}

// halvePlane averages 2 × 2 values into one; at an odd edge the last row or column counts twice.
func halvePlane(to, from plane, width, height int) {
	for y := 0; y < (height+1)/2; y++ {
		upper := from.pix[2*y*from.stride:][:width]
		lower := from.pix[min(2*y+1, height-1)*from.stride:][:width]
		row := to.pix[y*to.stride:]
		for x := 0; x < width/2; x++ {
			row[x] = byte((int(upper[2*x]) + int(upper[2*x+1]) + int(lower[2*x]) + int(lower[2*x+1]) + 2) / 4)
		}
		if width%2 == 1 {
			row[width/2] = byte((int(upper[width-1]) + int(lower[width-1]) + 1) / 2)
		}
	}
}

// average returns the picture with every square of factor × factor pixels as one; squares at the right and lower
// edge hold fewer.
func average(picture image.Image, factor int) image.Image {
	source, ok := picture.(image.RGBA64Image)
	if factor < 2 || !ok {
		return picture
	}
	from := picture.Bounds()
	to := image.NewRGBA(image.Rect(0, 0, (from.Dx()+factor-1)/factor, (from.Dy()+factor-1)/factor))
	for y := range to.Rect.Dy() {
		for x := range to.Rect.Dx() {
			square := image.Rect(0, 0, factor, factor).Add(image.Pt(x*factor, y*factor)).Add(from.Min).Intersect(from)
			mean(to.Pix[to.PixOffset(x, y):][:4], source, square)
		}
	}
	return to
}

// mean writes the average colour of a square, with the light that shines through counted once (premultiplied).
func mean(to []byte, source image.RGBA64Image, square image.Rectangle) {
	var sum [4]uint64
	for y := square.Min.Y; y < square.Max.Y; y++ {
		for x := square.Min.X; x < square.Max.X; x++ {
			c := source.RGBA64At(x, y)
			sum[0] += uint64(c.R)
			sum[1] += uint64(c.G)
			sum[2] += uint64(c.B)
			sum[3] += uint64(c.A)
		}
	}
	count := uint64(square.Dx()*square.Dy()) * 257
	for i, s := range sum {
		to[i] = byte((s + count/2) / count)
	}
}

// turn puts a picture upright that was stored with an EXIF orientation of 1 to 8.
func turn(p *image.RGBA, orientation int) *image.RGBA {
	if orientation <= 1 || orientation > 8 {
		return p
	}
	width, height := p.Rect.Dx(), p.Rect.Dy()
	size := image.Pt(width, height)
	if orientation >= 5 {
		size = image.Pt(height, width)
	}
	upright := image.NewRGBA(image.Rectangle{Max: size})
	for y := range size.Y {
		for x := range size.X {
			fromX, fromY := origin(orientation, x, y, width, height)
			copy(upright.Pix[upright.PixOffset(x, y):][:4], p.Pix[p.PixOffset(fromX, fromY):][:4])
		}
	}
	return upright
}

// origin returns where the pixel x, y of the upright picture is stored in one of width × height.
func origin(orientation, x, y, width, height int) (fromX, fromY int) {
	switch orientation {
	case 2: // mirrored
		return width - 1 - x, y
	case 3: // upside down
		return width - 1 - x, height - 1 - y
	case 4: // upside down and mirrored
		return x, height - 1 - y
	case 5: // rows are columns
		return y, x
	case 6: // turned left; turn right
		return y, height - 1 - x
	case 7: // turned left and mirrored
		return width - 1 - y, height - 1 - x
	case 8: // turned right; turn left
		return width - 1 - y, x
	}
	return x, y
}

// encode writes the file of one size.
func encode(picture *image.RGBA, format Format, profile []byte) ([]byte, error) {
	var file bytes.Buffer
	if format == PNG {
		encoder := png.Encoder{CompressionLevel: png.BestCompression}
		if err := encoder.Encode(&file, picture); err != nil {
			return nil, err
		}
		return withPNGProfile(file.Bytes(), profile), nil
	}
	if err := jpeg.Encode(&file, picture, &jpeg.Options{Quality: quality}); err != nil {
		return nil, err
	}
	return withJPEGProfile(file.Bytes(), profile), nil
}
