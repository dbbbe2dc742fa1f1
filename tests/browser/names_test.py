"""What a screen reader is told, and what pale eyes can read."""

import unittest

import solved


class Names(unittest.TestCase):

    @solved.each_page()
    def test_pictures_have_role_and_name(self, name, page):
        page.look("unfold")
        pictures = page.find("svg:not([aria-hidden=true])")
        self.assertGreaterEqual(len(pictures), 3)
        self.assertNotIn("", page.look("pictureTitles"))
        names = [picture.accessible_name for picture in pictures]
        self.assertNotIn("", names)
        self.assertEqual(len(set(names)), len(names), names)
        for picture in pictures:
            self.assertEqual(picture.get_attribute("role"), "img")

    @solved.each_page()
    def test_tables_have_captions_and_heads(self, name, page):
        page.look("unfold")
        tables = page.tables()
        self.assertGreaterEqual(len(tables), 4)
        self.assertNotIn("", tables)
        self.assertEqual(page.find("th:not([scope])"), [])

    @solved.each_page()
    def test_controls_have_names_of_their_own(self, name, page):
        page.look("unfold")
        controls = page.seen("a[href], button, summary, input, select,"
                             " textarea, [role=region]")
        names = [control.accessible_name for control in controls]
        self.assertGreater(len(names), 5)
        self.assertNotIn("", names)
        self.assertEqual(len(set(names)), len(names), names)

    @solved.each_page()
    def test_the_language_is_told(self, name, page):
        page.look("unfold")
        self.assertEqual(
            page.run("return document.documentElement.lang"), "en")

    @solved.each_page()
    def test_headings_skip_no_level(self, name, page):
        page.look("unfold")
        levels = [int(heading.tag_name[1]) for heading in
                  page.find("h1, h2, h3, h4, h5, h6")]
        self.assertEqual(levels.count(1), 1)
        self.assertEqual(levels[0], 1)
        self.assertGreater(len(levels), 5)
        for above, level in zip(levels, levels[1:]):
            self.assertLessEqual(level, above + 1, levels)

    @solved.each_page()
    def test_ids_are_unique_and_what_they_are_for_is_there(self, name, page):
        page.look("unfold")
        self.assertEqual(page.look("idsUsedTwice"), [])
        self.assertEqual(page.look("lostReferences"), [])

    @solved.each_page()
    def test_text_stands_out_from_its_ground(self, name, page):
        """4.5 to 1, what WCAG 2 asks of text of ordinary size (AA)."""
        page.look("unfold")
        looked_at, pale = page.look("pale", 4.5)
        self.assertGreater(looked_at, 50)
        self.assertEqual(pale, [])
