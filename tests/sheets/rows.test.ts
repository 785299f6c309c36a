import { expect, test } from 'vitest';
import { make } from './workshop.ts';

const words = `
sheet: words
title: Words
answers: What the words are.
rows:
  list:
    - { word: hook }
    - { word: ring }
key: word
columns:
  - { id: word, heading: Word, kind: key }
  - { id: constructor, heading: Made by, kind: text }
`;

test('a row of a list holds what is written in it and nothing that the language adds', () => {
  const { plan, problems } = make({ words });
  expect(problems).toEqual([]);
  const sheet = plan.sheets.find(({ id }) => id === 'words');
  expect(sheet?.columns.find(({ id }) => id === 'constructor')?.inputs).toEqual([null, null]);
});
