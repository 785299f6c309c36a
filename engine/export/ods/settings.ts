import type { Worksheet, WorksheetView } from 'exceljs';
import { element, escapedText } from '../xml.ts';

type Setting = readonly [name: string, type: 'boolean' | 'short' | 'int' | 'string', value: string];

const frozen = '2';

function items(settings: readonly Setting[]): string {
  return settings
    .map(([name, type, value]) =>
      element('config:config-item', { 'config:name': name, 'config:type': type }, escapedText(value)),
    )
    .join('');
}

/** Frozen panes and grid lines: how a window shows a sheet, which OpenDocument leaves to the programs. */
function viewOf({ views }: Worksheet): Setting[] {
  const view: Partial<WorksheetView> = views[0] ?? {};
  const settings: Setting[] = [['ShowGrid', 'boolean', String(view.showGridLines !== false)]];
  if (view.state !== 'frozen') return settings;
  const { xSplit = 0, ySplit = 0 } = view;
  const along = (name: string, count: number): Setting[] =>
    count === 0
      ? []
      : [
          [`${name}SplitMode`, 'short', frozen],
          [`${name}SplitPosition`, 'int', String(count)],
        ];
  return [
    ...along('Horizontal', xSplit),
    ...along('Vertical', ySplit),
    // The pane that is worked in: 0 and 1 above, 2 and 3 below, from the left.
    ['ActiveSplitRange', 'short', String((ySplit > 0 ? 2 : 0) + (xSplit > 0 ? 1 : 0))],
    ['PositionLeft', 'int', '0'],
    ['PositionRight', 'int', String(xSplit)],
    ['PositionTop', 'int', '0'],
    ['PositionBottom', 'int', String(ySplit)],
    ...settings,
  ];
}

/** The settings part: how the workbook stands in its window when it is opened. */
export function settings(pages: readonly Worksheet[]): string {
  const tables = pages.map((page) =>
    element('config:config-item-map-entry', { 'config:name': page.name }, items(viewOf(page))),
  );
  const view = element(
    'config:config-item-map-entry',
    {},
    items([['ViewId', 'string', 'view1']]),
    element('config:config-item-map-named', { 'config:name': 'Tables' }, ...tables),
    items([['ActiveTable', 'string', pages[0]?.name ?? '']]),
  );
  return element(
    'office:settings',
    {},
    element(
      'config:config-item-set',
      { 'config:name': 'ooo:view-settings' },
      element('config:config-item-map-indexed', { 'config:name': 'Views' }, view),
    ),
  );
}
