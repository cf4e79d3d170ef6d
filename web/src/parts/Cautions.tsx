interface Props {
  readonly cautions: readonly string[];
  readonly title?: string;
}

export function Cautions({ cautions, title }: Props) {
  if (cautions.length === 0) return null;
  return (
    <div class="cautions">
      <strong>{title ?? 'Caution'}</strong>
      <ul>
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </div>
  );
}
