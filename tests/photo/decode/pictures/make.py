"""Makes the pictures beside this file with Pillow 12.3.0: small files of every kind, by an encoder that is not ours.

Four flat quadrants seen upright: red, green / blue, white, 320 by 240. In turned-N the pixels are stored so that
EXIF orientation N (CIPA DC-008) shows them upright. Run in this folder: python3 make.py
"""
from PIL import Image

upright = Image.new("RGB", (320, 240), "white")
for corner, color in (((0, 0), "red"), ((160, 0), "lime"), ((0, 120), "blue")):
    upright.paste(color, (*corner, corner[0] + 160, corner[1] + 120))

# Stored so that the viewer's turn for that orientation undoes it.
STORED = {
    1: None,
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}


def orientation(number):
    exif = Image.Exif()
    exif[0x0112] = number
    return exif


for number, turn in STORED.items():
    stored = upright if turn is None else upright.transpose(turn)
    stored.save(f"turned-{number}.jpg", quality=80, exif=orientation(number))
    stored.save(f"turned-{number}.png", optimize=True, exif=orientation(number))
    stored.save(f"turned-{number}.webp", quality=80, exif=orientation(number))
    # The encoder (libavif) makes the turn of AVIF's own properties out of it: irot and imir.
    stored.save(f"turned-{number}.avif", quality=60, exif=orientation(number))
upright.save("plain.jpg", quality=80)
upright.save("progressive.jpg", quality=80, progressive=True)
upright.save("plain.png")
upright.save("lossy.webp", quality=80)
upright.save("lossless.webp", lossless=True)
upright.save("plain.gif")
upright.save("plain.tif", compression="tiff_lzw")
upright.resize((32, 24)).save("plain.bmp")
upright.save("plain.pdf")
upright.save("plain.avif", quality=60)
upright.resize((4800, 3600)).save("large.png", optimize=True)
upright.resize((100, 75)).save("small.png")

# A lens as a phone writes it: 26 mm equivalent, 5.43 mm itself, 4000 by 3000 pixels, of which these are a reduction.
lens = Image.Exif()
lens[0x0112] = 6
lens.get_ifd(0x8769).update({0xA405: 26, 0x920A: 5.43, 0xA002: 4000, 0xA003: 3000, 0xA404: 1.0})
upright.transpose(Image.Transpose.ROTATE_90).save("lens.jpg", quality=80, exif=lens)
upright.save("lens.png", optimize=True, exif=lens)
upright.save("lens.webp", quality=80, exif=lens)
# In an item of its own. Pillow leaves it out where the turn is all that its first directory holds.
lens[0x0128] = 2
upright.transpose(Image.Transpose.ROTATE_90).save("lens.avif", quality=60, exif=lens)

# 12 million pixels as a phone held upright stores them: a soft yellow mark on each quarter of a gray wall, whose
# centers seen upright are at 1/4 and 3/4 of each side.
wall = Image.new("RGB", (3024, 4032), (90, 90, 90))
soft = Image.new("L", (201, 201))
soft.putdata([max(0, min(255, int(255 * (40.5 - ((x - 100) ** 2 + (y - 100) ** 2) ** 0.5) / 8))) for y in range(201) for x in range(201)])
for x in (756, 2268):
    for y in (1008, 3024):
        wall.paste((230, 210, 40), (x - 100, y - 100), soft)
sides = Image.Exif()
sides[0x0112] = 6
sides[0x0128] = 2
sides.get_ifd(0x8769).update({0xA405: 26, 0xA002: 4032, 0xA003: 3024})
wall.transpose(Image.Transpose.ROTATE_90).save("wall.jpg", quality=75, exif=sides)
wall.transpose(Image.Transpose.ROTATE_90).save("wall.avif", quality=50, exif=sides)
# 50 million pixels. Saving an AVIF has taken the turn out.
sides[0x0112] = 6
wall.transpose(Image.Transpose.ROTATE_90).resize((8160, 6120), Image.Resampling.BICUBIC).save("wall50.jpg", quality=60, optimize=True, exif=sides)
