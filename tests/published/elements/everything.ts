// SPDX-License-Identifier: AGPL-3.0-or-later
// A document that holds every element of MusicXML 4.0 without bearing on what a melody sounds or where it is.

const MARGINS = "<left-margin>70</left-margin><right-margin>70</right-margin>";
const ALL_MARGINS = `${MARGINS}<top-margin>70</top-margin><bottom-margin>70</bottom-margin>`;
const LAYOUT = `
  <page-layout><page-height>1600</page-height><page-width>1200</page-width><page-margins type="both">${ALL_MARGINS}</page-margins></page-layout>
  <system-layout><system-margins>${MARGINS}</system-margins><system-distance>120</system-distance>
    <top-system-distance>70</top-system-distance>
    <system-dividers><left-divider/><right-divider/></system-dividers></system-layout>
  <staff-layout number="1"><staff-distance>65</staff-distance></staff-layout>`;

const HEAD = `
  <work><work-number>12</work-number><opus xlink:href="opus.xml"/></work><movement-number>3</movement-number>
  <identification><rights>Public domain</rights>
    <encoding><encoding-date>2026-01-02</encoding-date><encoder>Somebody</encoder><software>An editor</software>
      <encoding-description>by hand</encoding-description><supports element="beam" type="yes"/></encoding>
    <source>A print</source><relation>urn:x</relation></identification>
  <defaults><scaling><millimeters>7</millimeters><tenths>40</tenths></scaling><concert-score/>${LAYOUT}
    <appearance><line-width type="beam">5</line-width><note-size type="cue">70</note-size>
      <distance type="hyphen">60</distance><glyph type="quarter-rest">restQuarter</glyph>
      <other-appearance type="x">y</other-appearance></appearance>
    <music-font font-family="M"/><word-font font-family="W"/><lyric-font font-family="L"/><lyric-language xml:lang="la"/>
  </defaults>
  <credit page="1"><link xlink:href="x"/><bookmark id="b1"/><credit-image source="a.png" type="image/png"/></credit>
  <credit page="1"><credit-symbol>gClef</credit-symbol></credit>`;

const PART_LIST = `
  <part-list>
    <part-group number="1" type="start"><group-name>G</group-name>
      <group-name-display><display-text>G</display-text></group-name-display>
      <group-abbreviation>g</group-abbreviation>
      <group-abbreviation-display><display-text>g</display-text></group-abbreviation-display>
      <group-symbol>brace</group-symbol><group-barline>yes</group-barline><group-time/></part-group>
    <score-part id="P1"><part-link xlink:href="p.xml"><instrument-link id="I1"/><group-link>parts</group-link></part-link>
      <part-name>Qin</part-name><part-abbreviation>Q.</part-abbreviation>
      <part-abbreviation-display><display-text>Q.</display-text></part-abbreviation-display>
      <group>score</group>
      <score-instrument id="I1"><instrument-name>Qin</instrument-name>
        <instrument-abbreviation>Q.</instrument-abbreviation><instrument-sound>pluck.guqin</instrument-sound><solo/>
        <virtual-instrument><virtual-library>V</virtual-library><virtual-name>N</virtual-name></virtual-instrument>
      </score-instrument>
      <score-instrument id="I2"><instrument-name>Qins</instrument-name><ensemble>2</ensemble></score-instrument>
      <player id="A"><player-name>Somebody</player-name></player>
      <midi-device port="1">D</midi-device>
      <midi-instrument id="I1"><midi-channel>1</midi-channel><midi-name>N</midi-name><midi-bank>1</midi-bank>
        <midi-program>1</midi-program><midi-unpitched>1</midi-unpitched><volume>80</volume><pan>0</pan>
        <elevation>0</elevation></midi-instrument></score-part>
    <part-group number="1" type="stop"/>
  </part-list>`;

const NOTE = "<pitch><step>D</step><octave>4</octave></pitch><duration>1</duration>";

const MEASURE = `
  <measure number="1">
    <print>${LAYOUT}<measure-layout><measure-distance>5</measure-distance></measure-layout>
      <measure-numbering>system</measure-numbering></print>
    <attributes><footnote>f</footnote><level>l</level><divisions>1</divisions>
      <time><beats>3</beats><beat-type>4</beat-type>
        <interchangeable><time-relation>parentheses</time-relation><beats>6</beats><beat-type>8</beat-type></interchangeable></time>
      <staves>1</staves><part-symbol>none</part-symbol><instruments>2</instruments>
      <clef><sign>G</sign><line>2</line><clef-octave-change>-1</clef-octave-change></clef>
      <staff-details><staff-type>regular</staff-type><staff-lines>5</staff-lines><line-detail line="1"/><staff-size>100</staff-size></staff-details>
      <for-part><part-clef><sign>C</sign><line>3</line></part-clef>
        <part-transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></part-transpose></for-part>
      <directive>Slowly</directive>
      <measure-style><multiple-rest>2</multiple-rest></measure-style>
      <measure-style><slash type="stop"><slash-type>quarter</slash-type><slash-dot/><except-voice>2</except-voice></slash></measure-style>
    </attributes>
    <direction><direction-type><rehearsal>A</rehearsal></direction-type>
      <direction-type><dashes type="start"/></direction-type>
      <direction-type><bracket type="start" line-end="none"/></direction-type>
      <sound><instrument-change id="I1"><instrument-sound>pluck.guqin</instrument-sound><solo/></instrument-change>
        <play id="I1"><ipa>a</ipa><mute>on</mute><semi-pitched>low</semi-pitched><other-play type="x">y</other-play></play></sound>
      <listening><sync type="tempo"/><other-listening type="x">y</other-listening></listening>
    </direction>
    <note attack="2" release="-2" dynamics="70" end-dynamics="60" pizzicato="yes">${NOTE}<instrument id="I1"/><voice>1</voice>
      <type>quarter</type><accidental>natural</accidental><stem>up</stem>
      <notehead-text><display-text>D</display-text><accidental-text>natural</accidental-text></notehead-text>
      <beam number="1">begin</beam>
      <notations><ornaments><trill-mark/><accidental-mark>sharp</accidental-mark></ornaments>
        <tuplet type="start"><tuplet-actual><tuplet-number>3</tuplet-number><tuplet-type>eighth</tuplet-type><tuplet-dot/></tuplet-actual>
          <tuplet-normal><tuplet-number>2</tuplet-number></tuplet-normal></tuplet></notations>
      <lyric number="1"><syllabic>single</syllabic><text>la</text><extend type="start"/><end-line/><end-paragraph/></lyric>
      <lyric number="2"><laughing/></lyric><lyric number="3"><humming/></lyric>
      <play id="I1"><mute>off</mute></play>
      <listen><assess type="no"/><wait/><other-listen type="x">y</other-listen></listen></note>
    <note>${NOTE}<voice>1</voice><time-modification><actual-notes>1</actual-notes><normal-notes>1</normal-notes>
      <normal-type>quarter</normal-type><normal-dot/></time-modification></note>
    <grouping type="start"><feature type="phrase">a</feature></grouping>
    <note>${NOTE}<voice>1</voice></note>
    <barline location="right"><bar-style>light-heavy</bar-style></barline>
  </measure>
  <measure number="2"><attributes><key><cancel>1</cancel><fifths>0</fifths></key></attributes>
    <note>${NOTE}<voice>1</voice></note></measure>`;

/** All of it. Nothing of it is told, since nothing of it bears on the melody. */
export const EVERYTHING = `<score-partwise version="4.0" xmlns:xlink="http://www.w3.org/1999/xlink">${HEAD}${PART_LIST}<part id="P1">${MEASURE}</part></score-partwise>`;
